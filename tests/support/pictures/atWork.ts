import type { Page } from 'playwright';
import { goTo } from '../browser.ts';

interface AtWork {
  readonly page: Page;
  /** The route of a check in an assembly of the demo's build. */
  readonly check: (name: string, phase?: string, number?: number) => object;
  /** Whether somebody asked for this screen. */
  readonly wants: (name: string) => boolean;
  readonly take: (name: string) => Promise<void>;
}

/** What the simulated hand measures, and what is seen half way. */
const works = {
  bench: {
    check: ['backlash', 'trial', 2],
    halfWay: (page: Page) => page.locator('.rocks__station', { hasText: /^3 / }),
  },
  turning: {
    check: ['ring-gear-runout', 'trial', 1],
    halfWay: (page: Page) => page.getByRole('button', { name: 'End the turn' }),
  },
  torqueing: {
    check: ['pinion-torque', 'trial', 2],
    halfWay: (page: Page) => page.getByText('Enough when it stands still'),
  },
} as const;

/** The bench at work: each measurement is taken anew by the simulated hand, and the picture is taken half way. */
export async function takeAtWork({ page, check, wants, take }: AtWork): Promise<void> {
  // A cue darkens or frames the picture for a moment. The page takes no style written into it, but a sheet made by script.
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync('.cue { visibility: hidden; }');
    document.adoptedStyleSheets = [sheet];
  });
  for (const [name, work] of Object.entries(works)) {
    if (!wants(name)) continue;
    const [what, phase, number] = work.check;
    await goTo(page, check(what, phase, number));
    await page.getByRole('button', { name: 'Take it anew' }).click();
    await page.waitForTimeout(300);
    await page.getByRole('button', { name: 'Simulated hand' }).click();
    // On a loaded machine the hurried hand is past it before the page looks: the picture shows what there is then.
    await work
      .halfWay(page)
      .waitFor({ timeout: 10_000 })
      .catch(() => process.stderr.write(`  ${name} was not met half way\n`));
    await page.waitForTimeout(500);
    await take(name);
    await page.locator('.words__hand', { hasText: 'at work' }).waitFor({ state: 'detached', timeout: 60_000 });
  }
}
