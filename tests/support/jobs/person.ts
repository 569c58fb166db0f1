import type { Locator, Page } from 'playwright';

/** What a job cost the person at the screen. The hands on the gears are not counted: they are the work itself. */
export interface Strokes {
  clicks: number;
  keys: number;
}

/**
 * How somebody works the bench: with a mouse and a keyboard, with the keyboard alone, or with the pedal alone. Whoever has a
 * pedal alone can press the green button and its other stroke, and nothing else.
 */
export type Manner = 'mouse' | 'keys' | 'pedal';

/** Somebody at the screen, whose clicks and keystrokes are counted. */
export interface Person {
  readonly page: Page;
  readonly manner: Manner;
  readonly strokes: Strokes;
  /** The one action that stands out. */
  readonly next: () => Promise<void>;
  /** Any other thing that can be pressed. */
  readonly press: (what: Locator) => Promise<void>;
  /** Writes into a field in place of what stands in it. */
  readonly type: (field: Locator, text: string) => Promise<void>;
  readonly key: (name: string) => Promise<void>;
}

const green = (page: Page): Locator => page.locator('.button--next:not([disabled])');

export function personAt(page: Page, manner: Manner): Person {
  const strokes: Strokes = { clicks: 0, keys: 0 };
  const key = async (name: string): Promise<void> => {
    strokes.keys += 1;
    await page.keyboard.press(name);
  };
  const click = async (what: Locator): Promise<void> => {
    strokes.clicks += 1;
    await what.click();
  };
  const reach = (what: Locator): Promise<void> => tabTo(what, key);
  const press = async (what: Locator): Promise<void> => {
    if (manner === 'pedal') throw new Error(`a pedal cannot press ${String(what)}`);
    if (manner === 'mouse') return click(what);
    await reach(what);
    return key('Space');
  };
  const type = async (field: Locator, text: string): Promise<void> => {
    if (manner === 'pedal') throw new Error(`a pedal cannot write into ${String(field)}`);
    if (!(await hasFocus(field))) await (manner === 'mouse' ? enter(field, key, click) : reach(field));
    if ((await field.inputValue()) !== '') await key('Control+a');
    for (const letter of text) await key(letter);
  };
  const next = async (): Promise<void> => {
    await green(page).waitFor();
    // The last field of a form keeps it by Enter; an empty one is nothing that was just typed.
    const typed = await page.evaluate(() => {
      const field = document.activeElement;
      return field instanceof HTMLInputElement && field.matches('form input[data-asked]') && field.value !== '';
    });
    if (typed && manner !== 'pedal') return key('Enter');
    await (manner === 'mouse' ? click(green(page)) : key('PageDown'));
  };
  return { page, manner, strokes, next, press, type, key };
}

const hasFocus = (what: Locator): Promise<boolean> => what.evaluate((element) => element === document.activeElement);

/** Whoever has just typed presses Enter, and clicks only where that does not lead to the field. */
async function enter(
  field: Locator,
  key: (name: string) => Promise<void>,
  click: (what: Locator) => Promise<void>,
): Promise<void> {
  const typing = await field.page().evaluate(() => document.activeElement instanceof HTMLInputElement);
  if (typing) await key(await enterOrTab(field));
  if (!(await hasFocus(field))) await click(field);
}

/** In a form Enter goes to the next empty field that is asked for; elsewhere Tab goes to the next of all. */
const enterOrTab = (field: Locator): Promise<string> =>
  field.evaluate((one) => {
    const empty = one instanceof HTMLInputElement && one.value === '';
    return empty && one.matches('form input[data-asked]') ? 'Enter' : 'Tab';
  });

const mostTabs = 90;

async function tabTo(what: Locator, key: (name: string) => Promise<void>): Promise<void> {
  await what.waitFor({ state: 'attached' });
  for (let tabs = 0; tabs < mostTabs; tabs += 1) {
    if (await hasFocus(what)) return;
    await key('Tab');
  }
  throw new Error(`Tab never reached ${String(what)}`);
}
