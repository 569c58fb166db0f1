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
