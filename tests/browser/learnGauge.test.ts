import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Line, serveLine } from '../../hardware-sim/lines/line.ts';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
let line: Line;
beforeAll(async () => {
  line = await serveLine();
  bench = await openBenchPage();
});
afterAll(async () => {
  await bench.close();
  await line.end();
});

/** Pictures of the way through, for whoever wants to look: only where a folder for them is named. */
const pictures = process.env['LEARN_PICTURES'];

it('learns a gauge on the screen, and catches by a block that its whole numbers are thousandths', async () => {
  let at = 0;
  let moving = true;
  // Thousandths of a millimetre without a decimal sign or a unit, and a second field that stands still.
  const timer = setInterval(() => {
    if (moving) at = Math.round(900 * Math.sin(Date.now() / 700));
    void line.write(Buffer.from(`01;${String(at).padStart(6)};OK\r\n`));
  }, 20);
  const record = { label: 'Old indicator', kind: 'indicator', unit: 'mm' } as const;
  const resolution = { value: 0.001, unit: 'mm' };
  const saved = await bench.service.answers['gauges.save']({ gauge: { ...record, resolution, link: line.link } });
  const { id } = valueOf(saved);
  valueOf(await bench.service.answers['gauges.plug-in']({ gauge: id }));
  await untilLive(bench.service, id);
  const { page, faults } = await bench.open();
  const look = async (name: string): Promise<void> => {
    if (pictures === undefined) return;
    mkdirSync(pictures, { recursive: true });
    await page.screenshot({ path: join(pictures, `${name}.png`) });
  };
  await show(page, { at: 'gauges', gauge: id });
  await page.getByRole('button', { name: 'Learn its lines' }).click();
  await look('1-ready');
  await page.getByRole('button', { name: 'Listen', exact: false }).first().click();
  await page.getByRole('list', { name: 'What was tried' }).waitFor();
  await look('2-listening');
  await page.getByRole('columnheader', { name: 'Read as' }).waitFor({ timeout: 30_000 });
  // It is not sure, and says why.
  expect(await page.getByText('The number has no decimals', { exact: false }).count()).toBe(1);
  await look('3-learned');
  await page.getByRole('button', { name: 'Read it this way' }).click();
  moving = false;
  at = 0;
  await page.getByRole('button', { name: 'It stands at the beginning' }).click();
  await page.waitForTimeout(300);
  await page.getByRole('button', { name: 'It stands at the beginning, anew' }).click();
  at = 500;
  await page.waitForTimeout(400);
  await page.getByLabel('Moved in by', { exact: true }).fill('0.5');
  await page.getByRole('button', { name: 'It has been moved by that' }).click();
  await page.getByText('It shows 1000 times that amount', { exact: false }).waitFor();
  await look('4-a-thousand-times');
  await page.getByRole('button', { name: 'Take its last 3 digits as decimals' }).click();
  await expect
    .poll(async () => valueOf(await bench.service.answers['gauges.list']({})).find((one) => one.id === id)?.format)
    .toMatchObject({ impliedDecimals: 3 });
  await page.locator('.readout .live__digits', { hasText: '0.500' }).waitFor();
  clearInterval(timer);
  expect(faults).toEqual([]);
  await page.context().close();
});
