import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { showText } from '../../src/shared/basics/show.ts';
import { latest, readNotebook } from '../../src/shared/job/records/build.ts';
import { isNone } from '../../src/shared/basics/result.ts';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { goTo } from '../support/browser.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

/** The one action that stands out. */
const next = (page: Page, words: string) => page.locator('.button--next', { hasText: words });

async function theBuild() {
  const [summary] = valueOf(await bench.service.answers['builds.list']({}));
  if (summary === undefined) throw new Error('no build was started');
  const notebook = valueOf(await bench.service.answers['builds.read']({ build: summary.id }));
  return { notebook, build: readNotebook(notebook.id, notebook.entries) };
}

it('goes from an empty bench to backlash at four stations in the notebook, led by the one next action', async () => {
  const { page, faults } = await bench.open();
  await page.getByLabel('What is on the stand').fill('Rear axle 1207');
  await page.getByLabel('Technician').fill('R. Lindqvist');
  await next(page, 'Start the build').click();

  // A description with gaps is refused at the fields, and nothing is written.
  await page.getByLabel('Pinion teeth').fill('13');
  await next(page, 'Keep this description').click();
  await page.getByText('Choose what sets the pinion preload.').waitFor();
  expect((await theBuild()).build.makeUp).toBeUndefined();
  await page.getByLabel('Ring gear teeth').fill('45');
  for (const answer of [
    'New set',
    'Convex: rear axles and reverse-cut fronts',
    'In the housing',
    'Crush sleeve',
    'Side shims outboard of the cups',
    'Between pinion head and bearing',
  ])
    await page.getByText(answer, { exact: true }).click();
  await next(page, 'Keep this description').click();

  // The one sheet that is there is that of the simulated axle; this one is typed.
  await next(page, 'Type a new sheet').click();
  // A limit says how it is felt (as it usually is, until that is changed) and where it comes from, or it is refused there.
  await page.getByLabel('Backlash, lower').fill('0.30');
  await page.getByLabel('Backlash, upper').fill('0.20');
  await next(page, 'Keep these limits').click();
  await page.getByText('Say where this limit comes from.').waitFor();
  expect(await page.getByRole('button', { name: 'Backlash, basis' }).innerText()).toContain(
    'Along the turn, at the heel',
  );
  await page.getByLabel('Backlash, where it comes from').fill('Maker’s manual, table 4');
  await next(page, 'Keep these limits').click();
  await page.getByText('The lower end lies above the upper end.').waitFor();
  expect((await theBuild()).build.specSheet).toBeUndefined();
  await page.getByLabel('Backlash, lower').fill('0.20');
  await page.getByLabel('Backlash, upper').fill('0.30');
  await next(page, 'Keep these limits').click();

  // The first limits lead on: as found is opened next, and its first step is asked.
  await next(page, 'Open as found').click();
  await page.locator('.job-row', { hasText: 'Backlash' }).click();
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  await page.getByRole('button', { name: 'Simulated hand' }).click();
  await page.getByRole('button', { name: 'Take it anew' }).waitFor({ timeout: 60_000 });

  const { build } = await theBuild();
  const [asFound] = build.assemblies;
  const backlash = asFound === undefined ? undefined : latest(asFound, 'backlash');
  if (backlash?.result.kind !== 'backlash') throw new Error('no backlash was recorded');
  expect(backlash.how.kind).toBe('streamed');
  expect(backlash.result.stations).toHaveLength(4);
  // What stands on the screen is what the bench worked out again from its journal.
  const rows = await page.locator('.stations__number').allInnerTexts();
  expect(rows).toEqual(
    backlash.result.stations.map(({ value_mm }) =>
      isNone(value_mm) ? 'none' : showText(value_mm, 'length', 'metric'),
    ),
  );
  const { min_mm, max_mm } = backlash.result;
  if (isNone(min_mm) || isNone(max_mm)) throw new Error('the stations have no number');
  const word = min_mm >= 0.2 && max_mm <= 0.3 ? 'within' : 'outside';
  expect(await page.locator('.verdict').innerText()).toContain(word);
  expect(faults).toEqual([]);

  // Undo strikes the measurement through; bringing it back shows the very same numbers.
  await page.keyboard.press('Control+z');
  await page.locator('.readout .live__digits').waitFor();
  const struck = (await theBuild()).build.assemblies[0];
  expect(struck === undefined ? undefined : latest(struck, 'backlash')).toBeUndefined();
  await page.keyboard.press('Control+Shift+Z');
  await page.getByRole('button', { name: 'Take it anew' }).waitFor();
  expect(await page.locator('.stations__number').allInnerTexts()).toEqual(rows);
  await page.context().close();
});

it('keeps a number without a build and puts it into one later', async () => {
  const { page, faults } = await bench.open();
  await page.locator('.strip-gauge').first().waitFor();
  await page.keyboard.press('m');
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  await page.getByRole('button', { name: 'Simulated hand' }).click();
  await next(page, 'Keep this number').waitFor({ timeout: 60_000 });
  await next(page, 'Keep this number').click();
  await page.getByText(/^Kept: /u).waitFor();
  const loose = valueOf(await bench.service.answers['measurements.loose']({}));
  expect(loose).toHaveLength(1);
  expect(loose[0]?.result.kind).toBe('backlash');

  await page.getByRole('button', { name: /^Into a build/u }).click();
  await page.getByRole('button', { name: /Build/u }).click();
  await page.getByRole('option', { name: /Rear axle 1207/u }).click();
  await page.getByRole('button', { name: 'Put it in' }).click();
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  const { build } = await theBuild();
  const adopted = build.assemblies[0]?.measurements.filter(({ check }) => check === 'backlash');
  expect(adopted).toHaveLength(2);
  expect(faults).toEqual([]);
  await page.context().close();
});

it('fills in the simulated axle and its limits on request, so that a newcomer invents nothing', async () => {
  const { page, faults } = await bench.open();
  const { id } = valueOf(await bench.service.answers['builds.start']({ title: 'Simulated axle', technician: 'A' }));
  await goTo(page, { at: 'axle', build: id });
  await page.getByRole('button', { name: 'Fill in the simulated axle' }).click();
  await next(page, 'Keep this description').click();
  await page.locator('.shelf__sheet', { hasText: 'Simulated axle' }).getByRole('button').click();
  await next(page, 'Keep these limits').click();
  await next(page, 'Open as found').waitFor();
  const notebook = valueOf(await bench.service.answers['builds.read']({ build: id }));
  const build = readNotebook(id, notebook.entries);
  expect(build.makeUp).toMatchObject({ pinionTeeth: 13, ringTeeth: 45, outerDiameter_mm: 205 });
  expect(build.specSheet?.limits.length).toBeGreaterThan(8);
  expect(faults).toEqual([]);
  await page.context().close();
});
