import type { Locator, Page } from 'playwright';

/** What somebody pressed who knows nothing but the screen: the screen's name, what was said there, and the button. */
export interface Pressed {
  readonly screen: string;
  readonly said: string;
  readonly button: string;
}

interface Seen {
  readonly screen: string;
  readonly said: string;
  readonly green: string | undefined;
}

const green = (page: Page): Locator => page.locator('.button--next:not([disabled])');

/**
 * Walks on as somebody does who has never seen the bench: presses what the words set in bold, where it is a button or a
 * choice on the same screen, and otherwise the green button. Types nothing.
 * @throws where the screen has nothing to press for `patience_ms`, or leads round in a circle.
 */
export async function walkAsNewcomer(
  page: Page,
  isDone: () => Promise<boolean>,
  onScreen: (n: number) => Promise<void> = () => Promise.resolve(),
): Promise<readonly Pressed[]> {
  const path: Pressed[] = [];
  while (!(await isDone())) {
    const seen = await waitToPress(page, path);
    await onScreen(path.length);
    const named = await namedInWords(page, path, seen);
    const button = named ?? seen.green;
    if (button === undefined) throw new Error(stopAt('nothing to press', seen, path));
    path.push({ screen: seen.screen, said: seen.said, button });
    if (path.length > 200 || goesRound(path)) throw new Error(stopAt('the same again and again', seen, path));
    await (named === undefined ? green(page) : pressable(page, named)).first().click();
    await changed(page, seen);
  }
  return path;
}

const patience_ms = 20_000;

/** Waits until the hand has done its work and there is something to press. */
async function waitToPress(page: Page, path: readonly Pressed[]): Promise<Seen> {
  const until = Date.now() + patience_ms;
  for (;;) {
    const seen = await look(page);
    const busy = (await page.getByText('The simulated hand is at work').count()) > 0;
    if (!busy && (seen.green !== undefined || (await namedInWords(page, path, seen)) !== undefined)) return seen;
    if (Date.now() > until) throw new Error(stopAt('nothing to press', seen, path));
    await page.waitForTimeout(50);
  }
}

async function look(page: Page): Promise<Seen> {
  const text = async (what: string): Promise<string> => (await page.locator(what).allInnerTexts())[0] ?? '';
  const enabled = await green(page).locator('.button__words').allInnerTexts();
  return { screen: await text('main h1'), said: await text('.words__title'), green: enabled[0] };
}

/** The button or choice that the words name in bold; one that was just pressed on this very screen is not pressed again. */
async function namedInWords(page: Page, path: readonly Pressed[], seen: Seen): Promise<string | undefined> {
  const bold = (await page.locator('.words__saying p strong').allInnerTexts()).join(' ');
  if (bold === '') return undefined;
  const names = await page
    .locator('.button:not(.button--next):not([disabled]) .button__words, .choice__option')
    .allInnerTexts();
  const last = path.at(-1);
  const isAgain = (name: string): boolean =>
    last?.button === name && last.screen === seen.screen && last.said === seen.said;
  return names.map((name) => name.trim()).find((name) => name !== '' && bold.includes(name) && !isAgain(name));
}

const pressable = (page: Page, name: string): Locator =>
  page.locator('.button:not(.button--next)', { hasText: name }).or(page.locator('.choice__option', { hasText: name }));

/** A moment for what was pressed to show. */
async function changed(page: Page, before: Seen): Promise<void> {
  for (let tries = 0; tries < 20; tries += 1) {
    await page.waitForTimeout(50);
    const now = await look(page);
    if (now.screen !== before.screen || now.said !== before.said || now.green !== before.green) return;
  }
}

const goesRound = (path: readonly Pressed[]): boolean => {
  const last = JSON.stringify(path.at(-1));
  return path.length > 8 && path.slice(-8).every((one) => JSON.stringify(one) === last);
};

const stopAt = (what: string, seen: Seen, path: readonly Pressed[]): string =>
  `${what} on “${seen.screen}”, which says “${seen.said}”; before it: ${path
    .slice(-4)
    .map(({ screen, button }) => `${screen}: ${button}`)
    .join(' / ')}`;
