import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readNotebook } from '../../src/shared/job/records/build.ts';
import { limitsChanged } from '../../src/shared/job/checks/limitChanges.ts';
import { type BenchPage, buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { show } from './everyScreen.ts';

/** A limit that changes after something was held against it: why, and what becomes of what was read. */
let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());

const button = (page: Page, name: string): Locator => page.getByRole('button', { name });

it('asks why, keeps the reading its verdict, and writes it into the record', async () => {
  const { build, trial } = await buildInTrial(bench.service);
  const { page, faults } = await bench.open();
  await show(page, { at: 'limits', build, line: 'cap-torque' });
  const lower = page.getByLabel('Bearing cap torque, lower');
  expect(await lower.evaluate((field) => field === document.activeElement)).toBe(true);
  // 78 N·m was read, within 70 to 90; another window is entered.
  await lower.fill('80');
  const panel = page.getByRole('region', { name: 'A limit changes that readings were held against' });
  await panel.getByText(/bearing cap torque.*was.*70/u).waitFor();
  expect(await panel.innerText()).toContain('Trial 1, bearing caps');
  await button(page, 'Keep the changes').click();
  await panel.getByText('Say why.').waitFor();
  await panel.getByText('Keeps the limit it was held against').click();
  await panel.getByLabel('Why it changes').fill('New bolts ask for more');
  await button(page, 'Keep the changes').click();
  await page.getByRole('heading', { name: /Trial 1, on the stand/u }).waitFor();
  const kept = readNotebook(build, valueOf(await bench.service.answers['builds.read']({ build })).entries);
  expect(limitsChanged(kept)).toMatchObject([
    { why: 'New bolts ask for more', holds: 'from-now-on', readings: ['Trial 1, bearing caps'] },
  ]);
  await show(page, { at: 'check', build, assembly: trial, check: 'cap-torque' });
  await page.locator('.typed__standing', { hasText: 'within' }).waitFor();
  expect(faults).toEqual([]);
  await page.context().close();
});

it('takes a source typed after a click in place of the one it was given', async () => {
  const { build } = await buildInTrial(bench.service, 'Axle for the source');
  const { page } = await bench.open();
  await show(page, { at: 'limits', build });
  const source = page.getByLabel('Bearing cap torque, where it comes from');
  await source.click();
  await page.waitForFunction(() => (document.getSelection()?.toString() ?? '') !== '');
  await page.keyboard.type('Book 9');
  expect(await source.inputValue()).toBe('Book 9');
  await page.context().close();
});
