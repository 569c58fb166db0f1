import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { portsAlike } from '../support/specialGauges.ts';
import { everyScreen, show } from './everyScreen.ts';

let bench: BenchPage;
let screens: Awaited<ReturnType<typeof everyScreen>>['routes'];
let end: () => Promise<void>;
beforeAll(async () => {
  bench = await openBenchPage('hurried', portsAlike);
  await untilLive(bench.service, bench.gauges.indicator);
  ({ routes: screens, end } = await everyScreen(bench.service, bench.gauges.indicator));
});
afterAll(async () => {
  await bench.close();
  await end();
});

/** The rules of WCAG 2.2 at level AA that a machine can check (axe-core's own tags). */
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** One visit to every screen; a shared machine with one processor to spare takes its time over it. */
const visit = { timeout: 240_000 };

it('every screen keeps WCAG 2.2 AA as far as a machine can tell', visit, async () => {
  const { page, faults } = await bench.open();
  const broken: string[] = [];
  for (const [name, route] of Object.entries(screens)) {
    await show(page, route);
    broken.push(...(await violations(page, name)));
  }
  await page.getByRole('button', { name: 'Settings' }).click();
  await page.getByRole('dialog').waitFor();
  broken.push(...(await violations(page, 'settings')));
  expect(broken).toEqual([]);
  expect(faults).toEqual([]);
  await page.context().close();
});

it('words and digits stand out from their ground in the dark as well', visit, async () => {
  const { page } = await bench.open({ width: 1280, height: 800, theme: 'dark' });
  const broken: string[] = [];
  // Each of these has parts the others have not; colours come from one place, so the rest can differ in none.
  for (const name of ['builds', 'limits', 'stand', 'typed', 'torque', 'backlash', 'mark', 'a gauge'] as const) {
    await show(page, screens[name]);
    broken.push(...(await violations(page, name, ['color-contrast'])));
  }
  expect(broken).toEqual([]);
  await page.context().close();
});

/** With `only`, drawings are left out: their colours are tested where they are made (tests/unit/shared/presentation/drawing). */
async function violations(page: Page, screen: string, only?: string[]): Promise<string[]> {
  const axe = new AxeBuilder({ page });
  const { violations: found } = await (
    only === undefined ? axe.withTags(rules) : axe.exclude('svg').withRules(only)
  ).analyze();
  return found.map(({ id, nodes }) => `${screen}: ${id} at ${nodes.map(({ html }) => html.slice(0, 160)).join(', ')}`);
}

const withReadout = new Set([
  'backlash',
  'runout',
  'torque',
  'just measure',
  'a gauge',
  'pull scale',
  'sleeve',
  'daily check',
]);

it.each([
  { width: 1280, height: 800 },
  { width: 1024, height: 600 },
  { width: 1920, height: 1080 },
  { width: 800, height: 1280 },
])('fits gloves and eyes at $width × $height', visit, async ({ width, height }) => {
  const { page } = await bench.open({ width, height, theme: 'light' });
  const small: string[] = [];
  for (const [name, route] of Object.entries(screens)) {
    await show(page, route);
    small.push(...(await page.evaluate(targetsBelow)).map((target) => `${name}: ${target}`));
    // Nothing sticks out of the window, and all of an instrument in use is in sight.
    expect({ name, ...(await page.evaluate(overflow)) }).toEqual({ name, width, height, hidden: 0 });
    if (!withReadout.has(name)) continue;
    const { digits_px, unitShare } = await page.evaluate(digitHeight);
    expect(digits_px, name).toBeGreaterThanOrEqual(width >= 1280 ? 90 : 64);
    expect(unitShare, name).toBeCloseTo(0.5, 2);
  }
  expect(small).toEqual([]);
  await page.context().close();
});

/** Runs in the page: visible targets smaller than a gloved finger needs, in words. */
function targetsBelow(): string[] {
  const wanted = 'button, a[href], input, textarea, [role="slider"], label.choice__option, label.switch';
  return [...document.querySelectorAll<HTMLElement>(wanted)].flatMap((element) => {
    const { width, height } = element.getBoundingClientRect();
    // Inputs inside a label are reached through it; what is only for screen readers has no place to hit.
    if (element.tagName === 'INPUT' && element.closest('label') !== null) return [];
    if (element.closest('.unseen, [aria-hidden="true"]') !== null || width <= 1 || height <= 1) return [];
    const least = element.classList.contains('button--next') ? 56 : 44;
    const name = element.getAttribute('aria-label') ?? element.textContent;
    return width >= 43.5 && height >= least - 0.5 ? [] : [`${name} is ${Math.round(width)} × ${Math.round(height)}`];
  });
}

/** Runs in the page: how large the page is, and how much of a stage that must not scroll is out of sight. */
function overflow(): { readonly width: number; readonly height: number; readonly hidden: number } {
  const { scrollWidth: width, scrollHeight: height } = document.documentElement;
  const room = document.querySelector('.stage--fill .stage__room');
  const hidden =
    room === null ? 0 : Math.max(room.scrollHeight - room.clientHeight, room.scrollWidth - room.clientWidth);
  return { width, height, hidden };
}

/** Runs in the page: how high the digits of the live reading really are, by the font's own measure. */
function digitHeight(): { readonly digits_px: number; readonly unitShare: number } {
  const digits = document.querySelector('.readout .live__digits');
  const unit = document.querySelector('.readout .live__unit');
  const pen = document.createElement('canvas').getContext('2d');
  if (digits === null || unit === null || pen === null) return { digits_px: 0, unitShare: 0 };
  const style = getComputedStyle(digits);
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  return {
    digits_px: pen.measureText('0').actualBoundingBoxAscent,
    unitShare: Number.parseFloat(getComputedStyle(unit).fontSize) / Number.parseFloat(style.fontSize),
  };
}
