import { afterAll, beforeAll, expect, it } from 'vitest';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { simulatedBeside } from '../../src/main/hosts/loopback/beside.ts';
import { openLoopback } from '../../src/main/hosts/loopback/host.ts';
import { listPageFiles } from '../../src/main/hosts/pageFiles.ts';
import { openBenchHere } from '../../src/main/hosts/openBenchHere.ts';
import { newFolder } from '../support/bench/open.ts';
import { openPage } from '../support/browser.ts';
import { join } from 'node:path';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

it('lists every number that was kept without a build, a dozen at a time', async () => {
  const { page, faults } = await bench.open();
  await show(page, { at: 'just-measure', gauge: bench.gauges.torque });
  const { service, gauges } = bench;
  const rows: number[] = [];
  const stop = service.hear('heard', (news) => rows.push(...news.map(({ seq }) => seq)));
  valueOf(await service.answers['bench.hand']({ action: { do: 'turn-pinion', what: 'pinion' } }));
  stop();
  const [from = 0, to = 0] = [rows[0], rows.at(-1)];
  const settings = { kind: 'torque', basis: { basis: 'running', seal: 'in', bearings: 'used' } } as const;
  for (let n = 0; n < 26; n += 1)
    valueOf(
      await service.answers['measurements.keep-loose']({ stretch: { gauge: gauges.torque, from, to }, settings }),
    );
  await show(page, { at: 'builds' });
  await show(page, { at: 'just-measure', gauge: bench.gauges.torque });
  const lines = page.locator('.kept__one');
  await expect.poll(() => lines.count()).toBe(12);
  await page.getByRole('button', { name: 'Show 12 more of 26' }).click();
  await page.getByRole('button', { name: 'Show 2 more of 26' }).click();
  expect(await lines.count()).toBe(26);
  expect(faults).toEqual([]);
  await page.context().close();
});

it('opens a simulated bench beside an empty one, with records of its own, and begins there by one press', async () => {
  const files = valueOf(listPageFiles(join(import.meta.dirname, '..', '..', 'out', 'renderer')));
  const folder = newFolder();
  const beside = simulatedBeside(folder, files);
  const service = valueOf(await openBenchHere({ folder, simulate: false, simulateBeside: beside.open }));
  const host = valueOf(await openLoopback({ service, files }));
  try {
    const { page, faults } = await openPage(bench.browser, host.link);
    await page.getByRole('button', { name: 'Try it on a simulated axle' }).click();
    await page.locator('.button--next', { hasText: 'Try it on the simulated axle' }).click();
    await page
      .locator('h1', { hasText: 'as found' })
      .or(page.locator('h1', { hasText: 'As found' }))
      .waitFor();
    expect(new URL(page.url()).port).not.toBe(String(host.port));
    // The real bench has nothing of it.
    expect(valueOf(await service.answers['builds.list']({}))).toEqual([]);
    expect(valueOf(await beside.open())).toContain(new URL(page.url()).port);
    expect(faults).toEqual([]);
    await page.context().close();
  } finally {
    await host.close();
    await beside.close();
    await service.close();
  }
});
