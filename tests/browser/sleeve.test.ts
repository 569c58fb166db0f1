import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readNotebook } from '../../src/shared/job/records/build.ts';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { onSleeve } from '../support/specialBuilds.ts';
import { certificateText } from '../support/certificateText.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.torque);
});
afterAll(() => bench.close());
const picture = process.env['CHECK_PICTURE'];

it('creeps up on a sleeve, keeps its steps, and begins a new sleeve from nothing with the wasted one in the record', async () => {
  const standing = await onSleeve(bench.service);
  const { page, faults } = await bench.open();
  const notebook = async () => valueOf(await bench.service.answers['builds.read']({ build: standing.build }));
  const sleeves = async () => {
    const { id, entries } = await notebook();
    return readNotebook(id, entries).assemblies.at(-1)?.sleeves ?? [];
  };
  await show(page, { at: 'check', ...standing, check: 'pinion-torque' });
  const turnTo = async (degrees: string): Promise<void> => {
    await page.getByLabel('Nut turned, degrees').fill(degrees);
    await page.getByRole('button', { name: 'Simulated hand' }).click();
    await page.locator('.big-number__value', { hasText: /\d/u }).waitFor();
  };
  await turnTo('5');
  await page.getByRole('button', { name: 'Keep this step' }).click();
  await expect.poll(async () => (await sleeves()).map((sleeve) => sleeve.length), { timeout: 10_000 }).toEqual([1]);
  // What was read of the step is not offered as the next one.
  await page.locator('.big-number__none').waitFor();
  await turnTo('20');
  await page.getByText('Backing off the nut is no remedy', { exact: false }).waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'sleeveAbove.png') });
  await page.getByRole('button', { name: 'New sleeve is in' }).click();
  await page.getByText('One sleeve was crushed too far before this one').waitFor();
  await page.getByRole('heading', { name: 'Before the first step' }).waitFor();
  await page.locator('.big-number__none').waitFor();
  // The reading that wasted it is on it.
  expect((await sleeves()).map((sleeve) => sleeve.length)).toEqual([2, 0]);
  const told = certificateText(await notebook());
  expect(told).toContain('Sleeve 1, crushed too far and replaced');
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'sleeveNew.png') });
  expect(faults).toEqual([]);
  await page.context().close();
});

it('asks for the band first where none is entered, and still keeps steps', async () => {
  const standing = await onSleeve(bench.service);
  const by = 'Technician A';
  const specSheet = { name: 'Without a band', rule: 'simple', limits: [] } as const;
  valueOf(
    await bench.service.answers['builds.write']({
      build: standing.build,
      by,
      deed: { kind: 'limits-set', specSheet: { ...specSheet, limits: [] } },
    }),
  );
  const { page, faults } = await bench.open();
  await show(page, { at: 'check', ...standing, check: 'pinion-torque' });
  await page.getByText('No band is entered for this torque').waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'sleeveNoBand.png') });
  await page.getByRole('button', { name: 'Enter the band' }).click();
  await page.getByRole('heading', { name: 'Limits' }).first().waitFor();
  expect(faults).toEqual([]);
  await page.context().close();
});
