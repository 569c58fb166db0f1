import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { benchInNewFolder, valueOf } from '../support/bench/open.ts';
import { type BarePage, buildInTrial, openBarePage } from '../support/benchPage.ts';
import { onSleeve } from '../support/specialBuilds.ts';
import { show } from './everyScreen.ts';

let bench: BarePage;
let service: BenchService;
beforeAll(async () => {
  service = benchInNewFolder();
  bench = await openBarePage(service);
});
afterAll(async () => {
  await bench.close();
  await service.close();
});

const picture = process.env['CHECK_PICTURE'];

it('takes what a plain dial showed, on a bench that has no gauge at all: fields, verdict, rail', async () => {
  const { build, trial } = await buildInTrial(service);
  const { page, faults } = await bench.open();
  const shot = async (name: string): Promise<void> => {
    if (picture !== undefined) await page.screenshot({ path: join(picture, `${name}.png`) });
  };
  const typed = async () =>
    valueOf(await service.answers['builds.read']({ build })).entries.flatMap(({ deed }) =>
      deed.kind === 'measured' && deed.how.kind === 'typed' ? [deed] : [],
    );

  await show(page, { at: 'check', build, assembly: trial, check: 'backlash' });
  await page.locator('.button--next', { hasText: 'Enter it by hand' }).waitFor();
  await shot('noGauge');
  await page.keyboard.press('PageDown');
  for (const [index, text] of ['0.22', '22', '0.36', '0.27'].entries())
    await page.getByLabel(`Station ${index + 1}`, { exact: true }).fill(text);
  await page.getByLabel('Read off').fill('Dial indicator');
  await page.getByLabel('Its resolution').fill('0.01');
  await page.keyboard.press('PageDown');
  await page.getByText('Look at the point and the unit').waitFor();
  await shot('backlashTypedWrong');
  await page.getByLabel('Station 2', { exact: true }).fill('0.24');
  await page.keyboard.press('PageDown');
  // The window ends at 0.3 mm: one station is outside, and the screen stays to say so.
  await page.locator('.words__title', { hasText: 'Backlash, outside' }).waitFor();
  await page.getByText('Read once off a dial: its doubt is the step of the scale alone.').waitFor();
  await page.getByRole('navigation').getByText('0.220–0.360 mm').waitFor();
  await shot('backlashTyped');
  expect((await typed()).at(-1)).toMatchObject({
    check: 'backlash',
    how: { tool: 'Dial indicator', gauge: { kind: 'typed' } },
    result: { kind: 'backlash', stations: [{ value_mm: 0.22, rocks: 0 }, {}, { value_mm: 0.36 }, {}] },
  });

  // The dial is named once: the runout is one number, and what is within leads on.
  await show(page, { at: 'check', build, assembly: trial, check: 'ring-gear-runout' });
  await page.keyboard.press('PageDown');
  await page.getByRole('radio', { name: 'Dial indicator, 0.01 mm', checked: true }).waitFor();
  await shot('runoutTyped');
  await page.locator('.typed__main input').fill('0.03');
  await page.keyboard.press('PageDown');
  await page.getByText(/^Kept: .*0\.030 mm/u).waitFor();

  await show(page, { at: 'check', build, assembly: trial, check: 'pinion-torque' });
  await page.keyboard.press('PageDown');
  await page.locator('.typed__main input').fill('0.8');
  await page.getByLabel('Read off').fill('Dial wrench');
  await page.getByLabel('Its resolution').fill('0.05');
  await shot('torqueTyped');
  await page.keyboard.press('PageDown');
  await page.getByText(/^Kept: .*0\.80 N·m/u).waitFor();

  // A crush sleeve is crept up to without the bench; what it came to in the end is entered.
  await show(page, { at: 'check', ...(await onSleeve(service)), check: 'pinion-torque' });
  await page.locator('.button--next', { hasText: 'Enter it by hand' }).click();
  await page.getByRole('radio', { name: 'Dial wrench, 0.05 N·m', checked: true }).waitFor();
  expect(faults).toEqual([]);
  await page.context().close();
});
