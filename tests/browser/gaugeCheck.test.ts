import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Line, serveLine } from '../../hardware-sim/lines/line.ts';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
/** A second indicator, which reads what `says` says, and one that says nothing. */
let drawer: { readonly line: Line; readonly id: string; says: () => number };
let silent: { readonly line: Line; readonly id: string };
let sending: NodeJS.Timeout;

async function plugIn(label: string): Promise<{ readonly line: Line; readonly id: string }> {
  const line = await serveLine();
  const gauge = { label, kind: 'indicator', resolution: { value: 0.001, unit: 'mm' }, link: line.link } as const;
  const { id } = valueOf(await bench.service.answers['gauges.save']({ gauge }));
  valueOf(await bench.service.answers['gauges.plug-in']({ gauge: id }));
  return { line, id };
}

beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
  drawer = { ...(await plugIn('Drawer dial')), says: () => 4.289 };
  silent = await plugIn('Silent dial');
  sending = setInterval(() => void drawer.line.write(Buffer.from(`${drawer.says().toFixed(3)} mm\r\n`)), 30);
  await untilLive(bench.service, drawer.id);
});
afterAll(async () => {
  clearInterval(sending);
  await drawer.line.end();
  await silent.line.end();
  await bench.close();
});
const picture = process.env['CHECK_PICTURE'];

it('measures with the gauge whose button was pressed, and names it beside its digits', async () => {
  const { page, faults } = await bench.open();
  await show(page, { at: 'gauges', gauge: drawer.id });
  await page.getByRole('button', { name: 'Just measure with it' }).click();
  const readout = page.locator('.readout');
  await readout.getByText('Drawer dial').waitFor();
  await readout.locator('.live__digits', { hasText: '4.289' }).waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'justMeasure.png') });
  expect(faults).toEqual([]);
  await page.context().close();
});

it('does not call a port live on which nothing was heard', async () => {
  const { page, faults } = await bench.open();
  await show(page, { at: 'gauges', gauge: silent.id });
  await page.getByText('nothing was heard yet').waitFor();
  expect(await page.getByText('Every line could be read').count()).toBe(0);
  expect(await page.getByRole('button', { name: 'Just measure with it' }).count()).toBe(0);
  await page.getByRole('button', { name: 'Learn its lines' }).waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'silent.png') });
  await silent.line.write(Buffer.from('1.000 mm\r\n'));
  await page.getByRole('button', { name: 'Just measure with it' }).waitFor();
  expect(faults).toEqual([]);
  await page.context().close();
});

it('takes a check only of a gauge that stands, and one that fails is seen wherever the gauge is used', async () => {
  const { page, faults } = await bench.open();
  await show(page, { at: 'gauges', gauge: drawer.id });
  await page.getByRole('button', { name: 'Check it today' }).click();
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  let at = 2.4;
  drawer.says = () => (at += 0.05);
  await expect.poll(() => page.locator('.readout .live__digits').textContent()).toMatch(/^3/u);
  await page.getByRole('button', { name: 'Take its zero' }).click();
  await page.getByText('It moved while it was read.').waitFor();
  drawer.says = () => 1;
  await page.waitForTimeout(800);
  await page.getByRole('button', { name: 'Take its zero' }).click();
  await page.getByLabel('Amount that is known', { exact: true }).fill('0.5');
  for (const time of [1, 2, 3]) await page.getByRole('button', { name: `(${time} of 3)` }).click();
  // It was not moved by half a millimetre, and the check says so.
  await page.getByText('Its unit or its scale is wrong').waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'check.png') });
  await page.getByRole('button', { name: 'Keep the check' }).click();
  await page.getByText('Checked ', { exact: false }).waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'checked.png') });
  const [kept] = valueOf(await bench.service.answers['gauge-checks.list']({ gauge: drawer.id }));
  expect(kept).toMatchObject({ known: { value: 0.5, unit: 'mm' }, zero: 1, shown: [1, 1, 1] });

  await page.getByRole('button', { name: 'Just measure with it' }).click();
  await page.locator('.readout').getByText('failed its last check').waitFor();
  await page.getByRole('contentinfo').getByText('Drawer dial, failed its check').waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'failed.png') });
  expect(faults).toEqual([]);
  await page.context().close();
});
