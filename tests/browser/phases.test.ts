import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BenchPage, buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { goTo } from '../support/browser.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());

it('keeps the phases in one row however many trials there are, and leads back to each of them', async () => {
  const { build } = await buildInTrial(bench.service);
  const trial = { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false } as const;
  for (let n = 2; n <= 8; n += 1)
    valueOf(
      await bench.service.answers['builds.write']({
        build,
        by: 'R. Lindqvist',
        deed: { kind: 'assembled', assembly: trial },
      }),
    );
  const { page, faults } = await bench.open();
  await goTo(page, { at: 'build', build });
  await page.getByRole('heading', { name: 'Trial 8, on the stand' }).waitFor();
  const overflowing = await page
    .locator('.job__row')
    .evaluateAll((rows) => rows.filter((row) => row.scrollWidth > row.clientWidth).length);
  expect(overflowing).toBe(0);
  await page.getByRole('button', { name: 'Earlier' }).click();
  await page.getByRole('menuitem', { name: 'Trial 1' }).click();
  await page.getByRole('heading', { name: 'Trial 1, taken apart' }).waitFor();
  // The stop that holds it now says its name.
  expect(await page.locator('.job-chip--here').innerText()).toBe('Trial 1');
  expect(faults).toEqual([]);
});

it('moves no stop when another opens, and says what was there before', async () => {
  const { build } = await buildInTrial(bench.service, 'Rear axle 1208');
  const { page, faults } = await bench.open();
  await goTo(page, { at: 'assemble', build, phase: 'trial' });
  // What the next one follows on and is compared with, and what will be asked of it.
  await page.getByRole('heading', { name: 'Trial 1, before it' }).waitFor();
  expect(await page.locator('.ahead__asked').innerText()).toContain('Backlash');
  const placeOf = (name: RegExp) => page.locator('.job__row--way').getByRole('button', { name }).boundingBox();
  const before = { first: await placeOf(/^T1/u), final: await placeOf(/^Final/u), next: await placeOf(/^\+ trial/u) };
  await page.getByRole('button', { name: 'Open trial 2' }).click();
  await page.locator('.job-chip', { hasText: 'T2' }).waitFor();
  const after = { first: await placeOf(/^T1/u), final: await placeOf(/^Final/u), next: await placeOf(/^\+ trial/u) };
  expect(before.final).not.toBeNull();
  expect(after).toEqual(before);
  const assembly = valueOf(await bench.service.answers['builds.read']({ build })).entries.findLast(
    ({ deed }) => deed.kind === 'assembled',
  )?.id;
  await goTo(page, { at: 'check', build, assembly, check: 'cap-torque' });
  await page.locator('.typed__earlier', { hasText: 'Trial 1' }).waitFor();
  expect(await page.locator('.typed__earlier').innerText()).toContain('78 N·m');
  expect(faults).toEqual([]);
});
