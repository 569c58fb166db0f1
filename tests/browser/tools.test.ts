import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());

it('names a tool once; after that it is one tap, with its own unit, on any page', async () => {
  const { build, trial } = await buildInTrial(bench.service);
  const { page, faults } = await bench.open();
  const picture = process.env['SETTINGS_PICTURE'];
  const last = async () => valueOf(await bench.service.answers['builds.read']({ build })).entries.at(-1)?.deed;

  await show(page, { at: 'check', build, assembly: trial, check: 'ring-bolt-torque' });
  await page.getByLabel('Ring gear bolts', { exact: true }).fill('90');
  await page.getByLabel('Read off').fill('Dial wrench');
  await page.getByLabel('Its resolution').fill('1');
  await page.keyboard.press('PageDown');
  await expect.poll(last).toMatchObject({ how: { tool: 'Dial wrench', gauge: { label: 'Dial wrench' } } });
  const tool = valueOf(await bench.service.answers['gauges.list']({})).find(({ kind }) => kind === 'typed');
  expect(tool).toMatchObject({ label: 'Dial wrench', resolution: { value: 1, unit: 'N.m' } });
  valueOf(
    await bench.service.answers['gauges.save']({
      gauge: { label: 'Click wrench', kind: 'typed', resolution: { value: 5, unit: '[lbf_av].[ft_i]' } },
    }),
  );
  await page.context().close();

  const { page: later, faults: laterFaults } = await bench.open();
  await later.keyboard.press('u');
  await show(later, { at: 'check', build, assembly: trial, check: 'cap-torque' });
  await later.getByRole('radio', { name: 'Dial wrench, 1 N·m', checked: true }).waitFor();
  // One that is entered at another screen is offered here at once.
  valueOf(
    await bench.service.answers['gauges.save']({
      gauge: { label: 'Long wrench', kind: 'typed', resolution: { value: 2, unit: 'N.m' } },
    }),
  );
  await later.getByRole('radio', { name: 'Long wrench, 2 N·m' }).waitFor();
  await later.getByText('Click wrench, 5').click();
  if (picture !== undefined) await later.screenshot({ path: join(picture, 'tools.png') });
  await later.getByLabel('Bearing caps', { exact: true }).fill('60');
  await later.keyboard.press('PageDown');
  await expect
    .poll(last)
    .toMatchObject({ check: 'cap-torque', how: { tool: 'Click wrench', resolution: { value: 5 } } });
  expect(valueOf(await bench.service.answers['settings.read']({})).tools).toMatchObject({
    fastener: expect.any(String),
  });
  expect([...faults, ...laterFaults]).toEqual([]);
  await later.context().close();
});
