import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Deed } from '../../src/shared/job/records/notebook.ts';
import { type BenchPage, buildInTrial, openBenchPage, untilLive } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { Nm, roundLimits } from '../support/roundAxle.ts';
import { show } from './everyScreen.ts';

/** The flows of setting up that need more than one measurement: a crush sleeve, and whether the parts fit together. */
let bench: BenchPage;
let ids: { readonly build: string; readonly trial: string };
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
  ids = await buildInTrial(bench.service);
});
afterAll(() => bench.close());

const by = 'R. Lindqvist';
async function write(deed: Deed): Promise<string> {
  const { entries } = valueOf(await bench.service.answers['builds.write']({ build: ids.build, by, deed }));
  return entries.at(-1)?.id ?? '';
}

const words = (page: Page): Locator => page.locator('.words__saying');
const button = (page: Page, name: string | RegExp): Locator => page.getByRole('button', { name });
const fieldOf = (page: Page, name: string): Locator => page.getByLabel(name);

/**
 * The nut goes this far and takes this much; then the hand turns the pinion, and the reading stands. On a busy machine a pull
 * may be refused for the readings it lost; then it is pulled again, as a person would.
 */
async function turnNut(page: Page, turn: string, torque: string, pulls = 3): Promise<void> {
  await fieldOf(page, 'Nut turned, degrees').fill(turn);
  await fieldOf(page, 'Torque it took').fill(torque);
  await button(page, 'Simulated hand').click();
  const read = page.locator('.measure__found .digits', { hasText: /\d/u }).waitFor({ timeout: 20_000 });
  await read.catch((error: unknown) => {
    if (pulls > 1) return turnNut(page, turn, torque, pulls - 1);
    throw error;
  });
}

async function keepStep(page: Page, stand: string): Promise<void> {
  const keep = page.locator('.button--next:not([disabled])', { hasText: 'Keep this step' });
  await keep.click();
  await words(page).getByRole('heading', { name: stand }).waitFor();
}

const source = 'Maker’s manual, table 9';
const limitsWithNut = (most_Nm: number): Deed => ({
  kind: 'limits-set',
  change: { why: 'Another table for the nut', holds: 'from-now-on' },
  specSheet: {
    ...roundLimits.specSheet,
    limits: [
      {
        quantity: 'pinion-torque',
        basis: { basis: 'running', seal: 'in', bearings: 'new' },
        min: Nm(1.7),
        max: Nm(2.6),
        source,
      },
      { quantity: 'pinion-nut-torque', max: Nm(most_Nm), source },
    ],
  },
});

async function finalOnSleeve(page: Page, nut_Nm: number): Promise<void> {
  await write(limitsWithNut(nut_Nm));
  const final = await write({
    kind: 'assembled',
    assembly: { phase: 'final', bearings: 'new', seal: 'in', sleeve: true },
  });
  await show(page, { at: 'check', build: ids.build, assembly: final, check: 'pinion-torque' });
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
}

it('creeps up on a crush sleeve, and past the band says that backing off the nut is no remedy', async () => {
  const { page, faults } = await bench.open();
  await finalOnSleeve(page, 400);
  await words(page).getByRole('heading', { name: 'Before the first step' }).waitFor();
  await turnNut(page, '', '');
  await keepStep(page, 'Below the band');
  await turnNut(page, '5', '280');
  await keepStep(page, 'Below the band');
  // The second step says what a third would bring, and how far the nut is from the middle of the band.
  const said = await words(page).innerText();
  expect(said).toMatch(/One more like the last is expected at \d\.\d\d N·m ± \d\.\d\d N·m/u);
  expect(said).toMatch(/about \d+° of the nut away; take half of that/u);
  await turnNut(page, '6', '300');
  await keepStep(page, 'In the band');
  expect(await fieldOf(page, 'Nut turned, degrees').inputValue()).toBe('');

  // The nut is moved all the same: no step needs to be kept for the bench to say what that means.
  await turnNut(page, '8', '330');
  await words(page).getByRole('heading', { name: 'Above the band' }).waitFor();
  expect(await words(page).innerText()).toContain('Backing off the nut is no remedy');
  expect(await page.locator('.button--next').count()).toBe(0);
  await button(page, 'New sleeve is in').click();
  await words(page).getByRole('heading', { name: 'Before the first step' }).waitFor();
  expect(faults).toEqual([]);
  await page.context().close();
});

it('stops at the largest torque of the nut while the band is not reached', async () => {
  const { page, faults } = await bench.open();
  await finalOnSleeve(page, 290);
  await turnNut(page, '', '');
  await keepStep(page, 'Below the band');
  await turnNut(page, '4', '295');
  await words(page)
    .getByRole('heading', { name: /^Stop: the nut/u })
    .waitFor();
  const said = await words(page).innerText();
  expect(said).toContain('Do not tighten further');
  expect(said).toContain('nut at most 290.00 N·m, from Maker’s manual, table 9');
  expect(await page.locator('.button--next').count()).toBe(0);
  expect(faults).toEqual([]);
  await page.context().close();
});

/** Runout at eight stations, with the place of the stem where it is given. */
async function runoutAtStations(page: Page, check: string, fromMesh?: string): Promise<void> {
  await show(page, { at: 'check', build: ids.build, assembly: ids.trial, check });
  if (await button(page, 'Take it anew').isVisible()) await button(page, 'Take it anew').click();
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  await button(page, /How it is taken/u).click();
  await page.getByRole('option', { name: '8 stations' }).click();
  if (fromMesh !== undefined) {
    await button(page, /Where the stem stands/u).click();
    await fieldOf(page, 'From the mesh, degrees').fill(fromMesh);
    await fieldOf(page, 'From the middle of the gear, mm').fill('100');
    await page.keyboard.press('Escape');
  }
  await button(page, 'Simulated hand').click();
  await page.locator('.button--next', { hasText: 'Record runout' }).click();
  await button(page, 'Take it anew').waitFor();
}

it('tells whether backlash and runout fit, not without the angle between them, and finds the best bolt position', async () => {
  const { page, faults } = await bench.open();
  await show(page, { at: 'check', build: ids.build, assembly: ids.trial, check: 'backlash' });
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  await button(page, /Stations/u).click();
  await page.getByRole('option', { name: '8 stations' }).click();
  await button(page, 'Simulated hand').click();
  await button(page, 'Take it anew').waitFor();

  const together = page.getByRole('region', { name: 'Do backlash and runout fit together' });
  await runoutAtStations(page, 'ring-gear-runout');
  expect(await together.innerText()).toContain('Cannot tell whether backlash and runout fit');
  // The twin's indicator stands at the mesh, and its backlash comes from its wobble.
  await runoutAtStations(page, 'ring-gear-runout', '0');
  expect(await together.innerText()).toMatch(/Runout explains the variation[\s\S]*varies by 0\.0\d\d mm/u);

  await runoutAtStations(page, 'flange-runout', '0');
  const reclocking = page.getByRole('region', { name: 'Re-clocking the ring gear' });
  await button(page, 'Find the best position').click();
  expect(await reclocking.innerText()).toContain('Count them: 4 to 40.');
  await fieldOf(page, 'Bolts of the ring gear').fill('10');
  await button(page, 'Find the best position').click();
  // The twin: flange 8 µm at 40°, the gear's own 7 µm at 90°; 144° further on the two nearly cancel out. A micrometre of noise
  // at the stations moves that by less than a hole either way.
  await reclocking.getByText(/Bolt the ring gear [345] holes further on, clockwise/u).waitFor();
  expect(faults).toEqual([]);
  await page.context().close();
});
