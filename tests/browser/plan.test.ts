import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Page } from 'playwright';
import { type Build, latest, readNotebook } from '../../src/shared/job/records/build.ts';
import { type BenchPage, openBenchPage } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import type { Deed } from '../../src/shared/job/records/notebook.ts';
import { goTo } from '../support/browser.ts';
import { trial } from '../support/records/scenario.ts';
import { backlashOf, lowAndToe, markOf, packs, shimsOf } from '../support/records/trials.ts';
import { buildForPlan, putInDrawer, writeTrialTwo } from '../support/planBuild.ts';

let bench: BenchPage;
let ids: { readonly build: string; readonly trial: string };

beforeAll(async () => {
  bench = await openBenchPage();
  ids = await buildForPlan(bench.service);
});
afterAll(() => bench.close());

const next = (page: Page, words: string) => page.locator('.button--next', { hasText: words });

async function buildNow(): Promise<Build> {
  const notebook = valueOf(await bench.service.answers['builds.read']({ build: ids.build }));
  return readNotebook(notebook.id, notebook.entries);
}

it('goes from the plan over the swap card to the next trial, and holds what came against what was expected', async () => {
  const { page, faults } = await bench.open();
  await putInDrawer(bench.service, [0.9, 0.5, 0.3, 0.2, 0.1, 0.1, 0.05, 0.05]);
  await goTo(page, { at: 'plan', build: ids.build });
  // The drive mark is hard at root and toe: depth first, so a thinner pack under the head.
  await page.locator('.plan__headline', { hasText: /^Pinion depth [\d.]+ mm thinner/u }).waitFor();
  const planned = await page.locator('.plan__headline').textContent();

  // A hand moves the pinion one step further; marks and backlash follow, and the plan is one press away.
  const backlash = page.locator('.plan__backlash .mover__says');
  const before = await backlash.textContent();
  await page.getByRole('button', { name: /^Deeper/u }).click();
  await page.locator('.plan__headline', { hasText: 'Your own movement' }).waitFor();
  await expect.poll(() => backlash.textContent()).not.toBe(before);
  await page.getByRole('button', { name: 'Back to the plan' }).click();
  await page.locator('.plan__headline', { hasText: planned ?? '' }).waitFor();

  await next(page, 'Make the swap card').click();
  const card = page.getByRole('group', { name: 'Pinion depth' });
  await card.waitFor();
  const [swap] = (await buildNow()).swaps;
  const line = swap?.lines.find(({ place }) => place === 'pinion-depth');
  if (swap === undefined || line === undefined) throw new Error('no card was written');
  expect(swap.chosenBy).toBe('plan');
  expect(swap.pinionOut_mm).toBeGreaterThan(0.05);

  // The pack that came out is caught before it goes back in, and so is a change the wrong way.
  const field = page.getByLabel('Pinion depth as measured', { exact: true });
  await field.fill('1.42');
  await page.getByText('it is the pack that came out').first().waitFor();
  await field.fill((2 * 1.42 - line.wanted_mm).toFixed(3));
  await page.getByText('the change went the wrong way').first().waitFor();

  for (const { place, wanted_mm } of swap.lines) {
    const name = { 'pinion-depth': 'Pinion depth', 'ring-side': 'Ring-gear side', 'opposite-side': 'Opposite side' }[
      place as string
    ];
    await page.getByLabel(`${name} as measured`, { exact: true }).fill(wanted_mm.toFixed(3));
  }
  await page.getByLabel('Read off').fill('Micrometer');
  await page.getByLabel('Its resolution').fill('0.001');
  await next(page, 'Keep the measured packs').click();
  await next(page, 'Open the next trial').click();
  // The trial is opened, and its first missing step is on the stage.
  await expect.poll(async () => (await buildNow()).assemblies.at(-1)?.swap).toBe(swap.id);
  await page.locator('.stage__title', { hasNotText: 'Swap card' }).waitFor();
  // The packs are an entry of their own, after that of the trial.
  await expect
    .poll(async () => (await buildNow()).assemblies.slice(-1).map((one) => latest(one, 'shims')?.result.kind))
    .toEqual(['shims']);
  const second = (await buildNow()).assemblies.at(-1);
  const shims = second === undefined ? undefined : latest(second, 'shims')?.result;
  if (shims?.kind !== 'shims') throw new Error('the shims were not carried into the trial');
  expect(shims.packs.find(({ place }) => place === 'pinion-depth')?.pack.value).toBeCloseTo(line.wanted_mm, 3);
  expect(shims.packs).toHaveLength(3);

  await writeTrialTwo(bench.service, ids.build, second?.id ?? '', swap.expected.backlash.mean_mm);
  await goTo(page, { at: 'build', build: ids.build });
  const expected = page.locator('.expected');
  await expected.getByText('Expected and seen').waitFor();
  expect(await expected.locator('tr', { hasText: 'Backlash' }).textContent()).toContain('as expected');
  expect(await expected.locator('tr', { hasText: 'Coast, height' }).textContent()).toContain('not as expected');
  expect(faults).toEqual([]);
});

it('says what is missing where there can be no plan yet, and where it is entered', async () => {
  const { page } = await bench.open();
  const bare = valueOf(
    await bench.service.answers['builds.start']({ title: 'Front axle 12', technician: 'R. Lindqvist' }),
  );
  await goTo(page, { at: 'plan', build: bare.id });
  await page.getByText('Not enough for a plan yet').waitFor();
  expect(await next(page, 'Describe the axle').isEnabled()).toBe(true);
});

it('works a depth shim out from both marks only once unit and meaning are chosen, and keeps the sentence', async () => {
  const { page, faults } = await bench.open();
  await goTo(page, { at: 'check', build: ids.build, assembly: ids.trial, check: 'shims' });
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByLabel('Shim that is in now', { exact: true }).fill('1.2');
  await page.getByLabel('Mark on the old pinion').fill('-2');
  await page.getByLabel('Mark on the new pinion').fill('+3');
  await page.getByRole('button', { name: /The mark counts in/u }).click();
  await page.getByRole('option', { name: '0.01 mm' }).click();
  await page.locator('.words__title', { hasText: 'Type what was read' }).waitFor();
  await page.getByText('Further out', { exact: true }).click();
  await page.locator('.words__title', { hasText: /^The pinion goes out by 0\.050 mm/u }).waitFor();

  // A rule that adds both marks would change the shim between two identical pinions.
  for (const mark of ['The old mark', 'The new mark'])
    await page.getByRole('radiogroup', { name: mark }).getByText('Add', { exact: true }).click();
  await page.getByRole('status').filter({ hasText: 'contradicts itself' }).waitFor();

  await next(page, 'Write it in the notes').click();
  await page.locator('main h1', { hasText: 'Shims by place' }).waitFor();
  expect((await buildNow()).notes.at(-1)?.text).toContain('gets 0.050 mm (0.0020 in) thinner');
  expect(faults).toEqual([]);
  await page.context().close();
});

it('brings a backlash that is out into its window by the ring gear, with a card, before any paint', async () => {
  const { page, faults } = await bench.open();
  const moving = await buildForPlan(bench.service, 'Rear axle 1208, backlash out');
  const write = (deed: Deed) => bench.service.answers['builds.write']({ build: moving.build, by: 'A', deed });
  const opened = valueOf(await write(trial)).entries.at(-1)?.id ?? '';
  valueOf(await write(shimsOf(opened, packs(1.42, 3.1, 3.6))));
  valueOf(await write(backlashOf(opened, 0.1)));
  await goTo(page, { at: 'settle', build: moving.build, assembly: opened, check: 'backlash' });
  await page.getByRole('heading', { name: 'Three ways out' }).waitFor();
  await next(page, 'Move the ring gear').click();
  await page.getByRole('group', { name: 'Ring-gear side' }).waitFor();
  const notebook = valueOf(await bench.service.answers['builds.read']({ build: moving.build }));
  const swap = readNotebook(moving.build, notebook.entries).swaps.at(-1);
  expect(swap?.pinionOut_mm).toBe(0);
  expect(swap?.ringAway_mm).toBeGreaterThan(0.05);
  expect(swap?.lines.map(({ place }) => place)).toEqual(['ring-side', 'opposite-side']);
  expect(swap?.expected).not.toHaveProperty('drive');
  expect(faults).toEqual([]);
  await page.context().close();
});

it('takes the word of who looked: trials that contradict each other are planned on once they are said to be as told', async () => {
  const { page, faults } = await bench.open();
  const { build } = await buildForPlan(bench.service, 'Rear axle 1209, looked at');
  const write = async (deed: Deed) =>
    valueOf(await bench.service.answers['builds.write']({ build, by: 'R. Lindqvist', deed })).entries.at(-1)?.id ?? '';
  const second = await write(trial);
  await write(shimsOf(second, packs(1.42, 3.1, 3.6)));
  await write(backlashOf(second, 0.32));
  await write(markOf(second, lowAndToe));
  await goTo(page, { at: 'plan', build });
  await page.locator('.plan__headline', { hasText: 'The trials contradict each other' }).waitFor();
  await page.getByRole('button', { name: 'Looked: it is as told' }).click();
  await page.locator('.plan__headline', { hasText: /^Pinion depth [\d.]+ mm thinner/u }).waitFor();
  await page.getByText('Looked at and as told: trial 2.').waitFor();
  expect(await page.getByRole('button', { name: 'Looked: it is as told' }).count()).toBe(0);
  const { entries } = valueOf(await bench.service.answers['builds.read']({ build }));
  expect(entries.at(-1)?.deed).toEqual({ kind: 'looked-at', assembly: second });
  expect(faults).toEqual([]);
});
