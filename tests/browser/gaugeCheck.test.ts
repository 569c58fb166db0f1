import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

it('checks a gauge at zero and three times at an amount, and says on its page what came of it', async () => {
  const { page, faults } = await bench.open();
  const picture = process.env['CHECK_PICTURE'];
  await show(page, { at: 'gauges', gauge: bench.gauges.indicator });
  await page.getByRole('button', { name: 'Check it today' }).click();
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  await page.getByRole('button', { name: 'Take its zero' }).click();
  await page.getByLabel('Amount that is known', { exact: true }).fill('0.5');
  for (const time of [1, 2, 3]) await page.getByRole('button', { name: `(${time} of 3)` }).click();
  // The simulated stem hangs still: it was not moved by half a millimetre, and the check says so.
  await page.getByText('Off by −0.', { exact: false }).waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'check.png') });
  await page.getByRole('button', { name: 'Keep the check' }).click();
  await page.getByText('Checked ', { exact: false }).waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'checked.png') });
  const [kept] = valueOf(await bench.service.answers['gauge-checks.list']({ gauge: bench.gauges.indicator }));
  expect(kept).toMatchObject({
    known: { value: 0.5, unit: 'mm' },
    shown: [expect.any(Number), expect.any(Number), expect.any(Number)],
  });
  expect(faults).toEqual([]);
  await page.context().close();
});
