import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readNotebook } from '../../src/shared/job/records/build.ts';
import { makeSwap } from '../../src/shared/job/swap/makeSwap.ts';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, openBenchPage } from '../support/benchPage.ts';
import { buildForPlan } from '../support/planBuild.ts';
import { expectedAt } from '../support/records/trials.ts';
import { theBuild } from '../support/theBuild.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());
const by = 'Technician A';
const picture = process.env['CHECK_PICTURE'];

/** A swap card that asks for 1.30 mm under the pinion in place of 1.42 mm. */
async function withCard() {
  const { build, trial } = await buildForPlan(bench.service);
  const { id, entries } = valueOf(await bench.service.answers['builds.read']({ build }));
  const { assemblies, makeUp } = readNotebook(id, entries);
  const [stood] = assemblies;
  if (stood === undefined || makeUp === undefined) throw new Error('no trial to start from');
  const card = { by: 'plan', move: { pinionOut: 0.12, ringAway: 0 }, expected: expectedAt(0.2) } as const;
  const deed = { kind: 'swap-planned', assembly: trial, swap: valueOf(makeSwap(makeUp, stood, card)) } as const;
  const written = valueOf(await bench.service.answers['builds.write']({ build, by, deed }));
  return { build, swap: written.entries.at(-1)?.id ?? '' };
}

it('takes a whole kit in, keeps what was typed on the card meanwhile, and is counted down by it', async () => {
  const { build, swap } = await withCard();
  const { page, faults } = await bench.open();
  await show(page, { at: 'swap', build, swap });
  const pack = page.getByLabel('Pinion depth as measured', { exact: true });
  await pack.fill('1.3');
  await page.getByRole('button', { name: 'Shims at hand' }).click();
  await page.getByRole('button', { name: 'Put in a whole kit' }).click();
  for (const [label, text] of [
    ['From', '0.1'],
    ['To', '0.9'],
    ['In steps of', '0.1'],
    ['How many of each', '4'],
  ] as const)
    await page.getByRole('dialog').getByLabel(label, { exact: true }).fill(text);
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'kit.png') });
  await page.getByRole('button', { name: 'Put in 9 sizes, 4 of each' }).click();
  await page.getByText('0.500 mm', { exact: true }).waitFor();
  await page.keyboard.press('Escape');
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'drawer.png') });
  await page.getByRole('button', { name: 'Back to the swap card' }).click();
  expect(await pack.inputValue()).toBe('1.3');
  await page.getByLabel('Read off').fill('Micrometer');
  await page.getByLabel('Its resolution').fill('0.001');
  await page.locator('.button--next', { hasText: 'Keep the measured packs' }).click();
  await page.locator('.button--next', { hasText: 'Open the next trial' }).click();
  const trials = async () => (await theBuild(bench.service, build)).assemblies.length;
  await expect.poll(trials).toBe(2);
  // Four of each were put in: the sizes that went into the axle have three left.
  const takenOut = async (): Promise<number> => {
    const { sizes } = valueOf(await bench.service.answers['drawer.read']({}));
    const taken = sizes.filter(({ count }) => count === 3).map(({ thickness }) => thickness.value);
    return Math.round(1e3 * taken.reduce((sum, one) => sum + one, 0)) / 1e3;
  };
  await expect.poll(takenOut).toBe(1.3);
  expect(faults).toEqual([]);
  await page.context().close();
});
