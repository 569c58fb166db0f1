import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Deed } from '../../src/shared/job/records/notebook.ts';
import { type BenchPage, buildInTrial, openBenchPage, untilLive } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { show } from './everyScreen.ts';

/** Places a technician once stood at with nowhere to go: each has a way on, and the green button takes it. */
let bench: BenchPage;
let ids: { readonly build: string; readonly trial: string };
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
  ids = await buildInTrial(bench.service);
});
afterAll(() => bench.close());

const by = 'R. Lindqvist';
const write = async (deed: Deed): Promise<void> =>
  void valueOf(await bench.service.answers['builds.write']({ build: ids.build, by, deed }));
const button = (page: Page, name: string | RegExp): Locator => page.getByRole('button', { name });
const green = (page: Page): Locator => page.locator('.button--next');
const rail = (page: Page): Locator => page.getByRole('navigation', { name: 'The job' });

it('takes a refused runout anew by the green button', async () => {
  const { page, faults } = await bench.open();
  const nothing = { none: 'not-turned' };
  await write({
    kind: 'measured',
    assembly: ids.trial,
    check: 'ring-gear-runout',
    how: { kind: 'seen' },
    result: {
      kind: 'runout',
      tir_mm: nothing,
      harmonics: nothing,
      residual_mm: nothing,
      stations: [],
      missAtWorst_mm: nothing,
      shape: 'unknown',
      u_mm: nothing,
      U95_mm: nothing,
      flags: [],
      parts: [],
    },
  });
  for (const check of ['set-numbers', 'cup-seat', 'flange-runout', 'ring-gear-seat', 'ring-bolt-torque'] as const)
    await write({ kind: 'overridden', assembly: ids.trial, check, reason: 'Looked at on the bench before' });
  await show(page, { at: 'check', build: ids.build, assembly: ids.trial, check: 'ring-gear-runout' });
  await green(page).getByText('Take it anew').waitFor();
  await page.keyboard.press('PageDown');
  await green(page).getByText('Station read').waitFor();
  expect(faults).toEqual([]);
  await page.context().close();
});

it('takes what stands in the way anew, and does not lead back to its verdict', async () => {
  const { page } = await bench.open();
  await write({
    kind: 'measured',
    assembly: ids.trial,
    check: 'cap-torque',
    how: { kind: 'typed', tool: 'Torque wrench', resolution: { value: 1, unit: 'N.m' } },
    result: { kind: 'quantity', value: { value: 20, unit: 'N.m' } },
  });
  await show(page, { at: 'settle', build: ids.build, assembly: ids.trial, check: 'cap-torque' });
  await green(page).getByText('Take it anew').waitFor();
  await page.keyboard.press('PageDown');
  await page.locator('main h1', { hasText: 'Bearing caps' }).waitFor();
  await green(page).getByText(/^Keep/u).waitFor();
  await page.context().close();
});

it('goes back to the job from the gauges and the drawer, however often they were opened', async () => {
  const { page } = await bench.open();
  await show(page, { at: 'check', build: ids.build, assembly: ids.trial, check: 'cap-torque' });
  await page.locator('main h1').click();
  for (const key of ['g', 'g', 'd', 'g']) await page.keyboard.press(key);
  await button(page, 'Back to the job').click();
  await page.locator('main h1', { hasText: 'Bearing caps' }).waitFor();
  await page.locator('main h1').click();
  await page.keyboard.press('d');
  await green(page).getByText('Back to the job').click();
  await page.locator('main h1', { hasText: 'Bearing caps' }).waitFor();
  await page.context().close();
});

it('says what undo struck through, keeps it readable, and brings it back', async () => {
  const { page } = await bench.open();
  await write({ kind: 'noted', topic: 'note', text: 'Shim pack wiped clean' });
  await show(page, { at: 'notes', build: ids.build });
  await page.locator('.notes__written', { hasText: 'Shim pack wiped clean' }).waitFor();
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  const said = page.getByRole('status').filter({ hasText: 'Struck through' });
  await said.getByText('the note “Shim pack wiped clean”').waitFor();
  await button(page, /Everything written/u).click();
  await page.locator('.notes__lines s', { hasText: 'Shim pack wiped clean' }).waitFor();
  await page.getByRole('button', { name: 'Done', exact: true }).click();
  await said.getByRole('button', { name: 'Bring it back' }).click();
  await page.getByRole('status').filter({ hasText: 'Brought back' }).waitFor();
  await page.locator('.notes__written', { hasText: 'Shim pack wiped clean' }).waitFor();
  await page.context().close();
});

it('shows on the gate and the path what was overridden', async () => {
  const { page } = await bench.open();
  const { build, trial } = await buildInTrial(bench.service, 'Overridden');
  const override = (check: 'backlash'): Deed => ({ kind: 'overridden', assembly: trial, check, reason: 'No stem' });
  await bench.service.answers['builds.write']({ build, by, deed: override('backlash') });
  await show(page, { at: 'build', build });
  await page.getByText('Backlash, overridden by').waitFor();
  await page.context().close();
});

it('renames a build, puts it away, asks twice before throwing it away, and takes it back', async () => {
  const { page, faults } = await bench.open();
  const { build } = await buildInTrial(bench.service, 'Wrong axle');
  await show(page, { at: 'build', build });
  const own = button(page, /^This build/u);
  await own.click();
  await page.getByLabel('Its name').fill('Rear axle of the van');
  await button(page, 'Rename').first().click();
  await rail(page).getByText('Rear axle of the van').waitFor();
  await own.click();
  await button(page, 'Put it away').click();
  await rail(page)
    .getByRole('button', { name: /Put away/u })
    .click();
  await rail(page)
    .getByRole('button', { name: /Rear axle of the van/u })
    .click();
  await button(page, /^This build: Put away/u).click();
  await button(page, 'Take it back onto the bench').click();
  await own.click();
  await button(page, 'Throw it away').click();
  await page.getByText('with everything read on it').waitFor();
  await button(page, 'Yes, throw it away').click();
  await rail(page)
    .getByRole('button', { name: /Thrown away/u })
    .waitFor();
  expect(
    await rail(page)
      .getByRole('button', { name: /Rear axle of the van/u })
      .count(),
  ).toBe(0);
  const kept = valueOf(await bench.service.answers['builds.read']({ build }));
  expect(kept.entries.length).toBeGreaterThan(6);
  expect(faults).toEqual([]);
  await page.context().close();
});

it('shows a gauge that has fallen silent as dead, in the strip and on the stage', async () => {
  const { page } = await bench.open();
  await show(page, { at: 'gauges', gauge: bench.gauges.indicator });
  const digits = page.locator(`[data-gauge="${bench.gauges.indicator}"] .live__digits`);
  await digits.filter({ hasText: /\d/u }).first().waitFor();
  expect(await digits.count()).toBe(2);
  valueOf(await bench.service.answers['gauges.unplug']({ gauge: bench.gauges.indicator }));
  await expect.poll(() => digits.allInnerTexts(), { timeout: 10_000 }).toEqual(['–.–––', '–.–––']);
  valueOf(await bench.service.answers['gauges.plug-in']({ gauge: bench.gauges.indicator }));
  await digits.filter({ hasText: /\d/u }).nth(1).waitFor();
  await page.context().close();
});

it('does not go back to a question that was answered: a phase is opened once', async () => {
  const { page, faults } = await bench.open();
  const { build } = await buildInTrial(bench.service, 'Opened once');
  await show(page, { at: 'build', build });
  await rail(page).getByRole('button', { name: 'Final' }).click();
  await button(page, /^Open final.* all the same$/u).click();
  await page.waitForFunction(() => (history.state as { at?: string } | null)?.at === 'check');
  await page.goBack();
  await page
    .getByRole('heading', { name: /on the stand|not done|apart/u })
    .first()
    .waitFor();
  const { entries } = valueOf(await bench.service.answers['builds.read']({ build }));
  expect(entries.filter(({ deed }) => deed.kind === 'assembled' && deed.assembly.phase === 'final')).toHaveLength(1);
  expect(await page.evaluate(() => (history.state as { at?: string } | null)?.at)).not.toBe('assemble');
  expect(faults).toEqual([]);
  await page.context().close();
});
