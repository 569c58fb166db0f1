import { cpSync } from 'node:fs';
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { latest, readNotebook } from '../../src/shared/job/records/build.ts';
import type { BacklashResult } from '../../src/shared/job/records/measurement.ts';
import { isNone } from '../../src/shared/basics/result.ts';
import { type BenchPage, buildInTrial, openBenchPage, untilLive } from '../support/benchPage.ts';
import { lineForTest, say } from '../support/gaugesForTest.ts';
import { newFolder, valueOf } from '../support/bench/open.ts';
import { show } from './everyScreen.ts';

/** A backlash that is broken off between its stations goes on where it was, and never with shifted numbers. */
let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

const title = (page: Page): Locator => page.locator('.words__title');
const green = (page: Page): Locator => page.locator('.button--next');

const rock = ({ service }: BenchPage, stations: number) =>
  service.answers['bench.hand']({ action: { do: 'rock', stations } });

interface Begun {
  readonly build: string;
  readonly trial: string;
  readonly page: Page;
  readonly faults: readonly string[];
}

/** Two of four stations taken, in a build of its own. */
async function twoTaken(): Promise<Begun> {
  const { build, trial } = await buildInTrial(bench.service, 'Broken off');
  const { page, faults } = await bench.open();
  await show(page, { at: 'check', build, assembly: trial, check: 'backlash' });
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  expect(await title(page).innerText()).toBe('Station 1 of 4');
  valueOf(await rock(bench, 2));
  await title(page).getByText('Station 3 of 4').waitFor();
  return { build, trial, page, faults };
}

async function recorded({ service }: BenchPage, { build, trial }: Begun): Promise<readonly number[]> {
  const { entries } = valueOf(await service.answers['builds.read']({ build }));
  const assembly = readNotebook(build, entries).assemblies.find(({ id }) => id === trial);
  const result = assembly === undefined ? undefined : (latest(assembly, 'backlash')?.result as BacklashResult);
  return (result?.stations ?? []).map(({ value_mm }) => (isNone(value_mm) ? Number.NaN : value_mm));
}

/** The simulated hand begins at the first tooth each time, so the last two stations read what the first two did. */
async function finished(on: BenchPage, begun: Begun): Promise<void> {
  valueOf(await rock(on, 2));
  await begun.page.getByRole('button', { name: 'Take it anew' }).waitFor();
  const values = await recorded(on, begun);
  expect(values).toHaveLength(4);
  expect(values[2]).toBeCloseTo(values[0] ?? 0, 2);
  expect(values[3]).toBeCloseTo(values[1] ?? 0, 2);
  expect(values.every((value) => value > 0.05 && value < 0.6)).toBe(true);
  expect(begun.faults).toEqual([]);
  await begun.page.context().close();
}

it('goes on at the third station after another screen was looked at, whatever the gauge did meanwhile', async () => {
  const begun = await twoTaken();
  const { page } = begun;
  await page.keyboard.press('g');
  await page.locator('main h1').waitFor();
  // While nobody measures, the stem is set somewhere else and rocked: that is no station of this backlash.
  valueOf(await rock(bench, 1));
  await page.getByRole('button', { name: 'Back to the job' }).click();
  await title(page).getByText('2 taken, go on at 3').waitFor();
  await finished(bench, begun);
});

it('begins again at the first station where that is wanted', async () => {
  const begun = await twoTaken();
  const { page, build, trial } = begun;
  await show(page, { at: 'build', build });
  await show(page, { at: 'check', build, assembly: trial, check: 'backlash' });
  await page.getByRole('button', { name: 'Begin again' }).click();
  await title(page).getByText('Station 1 of 4').waitFor();
  await show(page, { at: 'build', build });
  await show(page, { at: 'check', build, assembly: trial, check: 'backlash' });
  await title(page).getByText('Station 1 of 4').waitFor();
  await page.context().close();
});

it('takes back the last station of the earlier part, and no more', async () => {
  const begun = await twoTaken();
  const { page, build, trial } = begun;
  await show(page, { at: 'build', build });
  await show(page, { at: 'check', build, assembly: trial, check: 'backlash' });
  await title(page).getByText('2 taken, go on at 3').waitFor();
  await page.keyboard.press('PageUp');
  await title(page).getByText('Station 2 of 4').waitFor();
  await page.context().close();
});

it('keeps the stations while the gauge is unplugged in mid-station, and says what there is', async () => {
  const begun = await twoTaken();
  const { page } = begun;
  valueOf(await bench.service.answers['gauges.unplug']({ gauge: bench.gauges.indicator }));
  await title(page).getByText('2 taken, go on at 3').waitFor();
  await green(page).getByText('Plug Indicator in').waitFor();
  await page.keyboard.press('PageDown');
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  await finished(bench, begun);
});

/** An indicator that reads what it is told, as long as it is told: the gear stands still under it. */
async function dial() {
  const line = await lineForTest();
  const { id } = valueOf(
    await bench.service.answers['gauges.save']({
      gauge: { label: 'Dial', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' }, link: line.link },
    }),
  );
  valueOf(await bench.service.answers['gauges.plug-in']({ gauge: id }));
  const reads = async (value: number): Promise<void> => {
    await say(line, `${value.toFixed(3)} mm\r\n`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  };
  const stand = async (value: number): Promise<void> => {
    for (let n = 0; n < 30; n += 1) await reads(value);
  };
  /** On to another height, seen on the way. */
  const goOn = async (from: number, to: number): Promise<void> => {
    for (let n = 1; n < 8; n += 1) await reads(from + ((to - from) * n) / 8);
    await stand(to);
  };
  return { stand, goOn };
}

it('goes on with a runout at its stations, once the station that was read last reads the same again', async () => {
  const { stand, goOn } = await dial();
  const { build, trial } = await buildInTrial(bench.service, 'Broken off in a runout');
  const { page, faults } = await bench.open();
  const route = { at: 'check', build, assembly: trial, check: 'ring-gear-runout' };
  await show(page, route);
  await page.locator('.pick__button', { hasText: 'Indicator' }).click();
  await page.getByRole('option', { name: 'Dial' }).click();
  const heights = [1, 1.012, 1.03, 1.041, 1.036, 1.021, 1.007, 0.996];
  const [one = 0, two = 0, three = 0] = heights;
  await stand(one);
  await goOn(one, two);
  await goOn(two, three);
  await title(page).getByText('Station 4 of 8').waitFor();
  await show(page, { at: 'build', build });
  // Moved on while nobody listens: that is no station, and what stands there is not taken for one.
  await goOn(three, 1.041);
  await show(page, route);
  await title(page).getByText('3 taken, go on at 4').waitFor();
  await stand(1.041);
  expect(await title(page).innerText()).toBe('3 taken, go on at 4');
  await goOn(1.041, three);
  await title(page).getByText('Station 4 of 8').waitFor();
  for (const [index, height] of heights.slice(3).entries()) await goOn(heights[index + 2] ?? 0, height);
  await green(page).getByText('Record runout').waitFor();
  await page.keyboard.press('PageDown');
  await page.getByRole('button', { name: 'Take it anew' }).waitFor();
  const { entries } = valueOf(await bench.service.answers['builds.read']({ build }));
  const deed = entries.at(-1)?.deed;
  if (deed?.kind !== 'measured' || deed.how.kind !== 'streamed' || deed.result.kind !== 'runout')
    throw new Error('no runout was recorded');
  expect(deed.result.stations.map(({ value_mm }) => Math.round(value_mm * 1000) / 1000)).toEqual(heights);
  expect(deed.how.stretch.breaks).toHaveLength(1);
  expect(faults).toEqual([]);
  await page.context().close();
});

it('keeps a torque that was read, over another screen and a killed bench, until it is recorded', async () => {
  const { build, trial } = await buildInTrial(bench.service, 'Broken off in a torque');
  const { page, faults } = await bench.open();
  const route = { at: 'check', build, assembly: trial, check: 'pinion-torque' };
  await show(page, route);
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  valueOf(await bench.service.answers['bench.hand']({ action: { do: 'turn-pinion', what: 'pinion' } }));
  await green(page).getByText('Record pinion rotating torque').waitFor();
  const read = await page.locator('.words p:not(.words__hand) strong').innerText();
  await show(page, { at: 'build', build });
  await show(page, route);
  await title(page).getByText('Read before and not recorded yet').waitFor();
  expect(await page.locator('.words p:not(.words__hand) strong').innerText()).toBe(read);
  const folder = newFolder();
  cpSync(bench.folder, folder, { recursive: true });
  await page.context().close();
  expect(faults).toEqual([]);
  const after = await openBenchPage('hurried', undefined, folder);
  try {
    await untilLive(after.service, after.gauges.torque);
    const again = await after.open();
    await show(again.page, route);
    await title(again.page).getByText('Read before and not recorded yet').waitFor();
    expect(await again.page.locator('.words p:not(.words__hand) strong').innerText()).toBe(read);
    await again.page.keyboard.press('PageDown');
    await again.page.getByRole('button', { name: 'Take it anew' }).waitFor();
    const { entries } = valueOf(await after.service.answers['builds.read']({ build }));
    expect(entries.at(-1)?.deed).toMatchObject({ kind: 'measured', check: 'pinion-torque' });
    expect(again.faults).toEqual([]);
  } finally {
    await after.close();
  }
});

it('goes on after the bench was killed, from what was on the disk', async () => {
  const { page, build, trial, faults } = await twoTaken();
  // Files as a killed bench leaves them: nothing was closed, the last rows lie in the write-ahead log.
  const folder = newFolder();
  cpSync(bench.folder, folder, { recursive: true });
  await page.context().close();
  expect(faults).toEqual([]);
  const after = await openBenchPage('hurried', undefined, folder);
  try {
    await untilLive(after.service, after.gauges.indicator);
    const again = await after.open();
    await green(again.page).getByText('Go on: trial 1, backlash').waitFor();
    await again.page.keyboard.press('PageDown');
    await title(again.page).getByText('2 taken, go on at 3').waitFor();
    await finished(after, { build, trial, ...again });
  } finally {
    await after.close();
  }
});
