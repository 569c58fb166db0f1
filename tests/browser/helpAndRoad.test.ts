import { afterAll, beforeAll, expect, it } from 'vitest';
import { readNotebook } from '../../src/shared/job/records/build.ts';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());

it('says how the thing on the stage is taken, and the cautions, one key away', async () => {
  const { build, trial } = await buildInTrial(bench.service);
  const { page, faults } = await bench.open();
  await show(page, { at: 'check', build, assembly: trial, check: 'backlash' });
  await page.keyboard.press('F1');
  const help = page.getByRole('dialog');
  expect(await help.innerText()).toContain('Rock the ring gear against both stops');
  expect(await help.innerText()).toContain('Both wheels off the floor');
  expect(await help.getByRole('img').getAttribute('aria-labelledby')).not.toBeNull();
  await page.keyboard.press('Escape');
  await help.waitFor({ state: 'detached' });
  await show(page, { at: 'check', build, assembly: trial, check: 'ring-bolt-torque' });
  await page.locator('main h1').click();
  await page.keyboard.press('?');
  expect(await help.innerText()).toContain('Crosswise');
  expect(faults).toEqual([]);
  await page.context().close();
});

it('paints the simulated teeth, so that a newcomer invents no mark', async () => {
  const { build, trial } = await buildInTrial(bench.service);
  const { page, faults } = await bench.open();
  await show(page, { at: 'check', build, assembly: trial, check: 'mark' });
  await page.getByRole('button', { name: 'Simulated hand' }).click();
  await page.getByRole('slider', { name: 'Middle of the coast mark' }).waitFor();
  expect(await page.getByRole('slider', { name: 'Middle of the drive mark' }).count()).toBe(1);
  expect(faults).toEqual([]);
  await page.context().close();
});

it('keeps a road test with its load, and begins the comeback with the same axle and limits', async () => {
  const { build } = await buildInTrial(bench.service, 'WO 40');
  const { page, faults } = await bench.open();
  await show(page, { at: 'road-test', build });
  await page.getByLabel('After how far').fill('25');
  await page.keyboard.press('PageUp');
  await page.getByText('When coasting').click();
  await page.keyboard.press('PageDown');
  const notes = async () =>
    readNotebook(build, valueOf(await bench.service.answers['builds.read']({ build })).entries).notes;
  await expect.poll(async () => (await notes()).at(-1)?.topic).toBe('road-test');
  const after = readNotebook(build, valueOf(await bench.service.answers['builds.read']({ build })).entries);
  expect(after.notes.at(-1)).toMatchObject({
    topic: 'road-test',
    heard: 'as-before',
    text: 'After 25 km: the noise as before, when coasting.',
  });

  // The page hears of its note a moment after the notebook has it, and then goes on by itself.
  await page.waitForFunction(() => (history.state as { at?: string } | null)?.at !== 'road-test');
  await show(page, { at: 'builds', comebackOf: build });
  await page.getByLabel('What is on the stand').fill('WO 41');
  await page.getByLabel('Technician').fill('A');
  await page.keyboard.press('PageDown');
  await page.locator('h1', { hasText: 'As found' }).waitFor();
  const all = valueOf(await bench.service.answers['builds.list']({}));
  const back = all.find(({ title }) => title === 'WO 41');
  const read = valueOf(await bench.service.answers['builds.read']({ build: back?.id ?? '' }));
  const again = readNotebook(read.id, read.entries);
  expect(again.comebackOf).toBe(build);
  expect(again.makeUp).toEqual(after.makeUp);
  expect(again.specSheet).toEqual(after.specSheet);
  expect(faults).toEqual([]);
  await page.context().close();
});
