import { afterEach, describe, expect, it } from 'vitest';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { readNotebook } from '../../../src/shared/job/records/build.ts';
import type { Deed } from '../../../src/shared/job/records/notebook.ts';
import { drawerAfter } from '../../../src/shared/job/swap/drawerAfter.ts';
import { makeSwap } from '../../../src/shared/job/swap/makeSwap.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';
import { buildForPlan, putInDrawer } from '../../support/planBuild.ts';
import { byHand, trial } from '../../support/records/scenario.ts';
import { expectedAt } from '../../support/records/trials.ts';

const by = 'R. Lindqvist';
const open: BenchService[] = [];
const bench = (folder: string): BenchService => {
  const service = benchInNewFolder(undefined, folder);
  open.push(service);
  return service;
};
const shut = async (): Promise<void> => {
  for (const service of open.splice(0)) await service.close();
};
afterEach(shut);

const writing =
  (service: BenchService, build: string) =>
  (deed: Deed): ReturnType<BenchService['answers']['builds.write']> =>
    service.answers['builds.write']({ build, by, deed });

/** A swap card after the first trial: the pinion comes out by 0.12 mm, so its shim of 1.42 mm gives way to 1.30 mm. */
async function withCard(service: BenchService) {
  const { build, trial: first } = await buildForPlan(service);
  const read = async () => {
    const { id, entries } = valueOf(await service.answers['builds.read']({ build }));
    return readNotebook(id, entries);
  };
  const [stood] = (await read()).assemblies;
  const { makeUp } = await read();
  if (stood === undefined || makeUp === undefined) throw new Error('no trial to start from');
  const card = { by: 'plan', move: { pinionOut: 0.12, ringAway: 0 }, expected: expectedAt(0.2) } as const;
  const planned: Deed = { kind: 'swap-planned', assembly: first, swap: valueOf(makeSwap(makeUp, stood, card)) };
  const swap = valueOf(await writing(service, build)(planned)).entries.at(-1)?.id ?? '';
  return { build, swap, read };
}

const mm = (value: number) => ({ value, unit: 'mm' });
const measuredFor = (swap: string): Deed => ({
  kind: 'packs-measured',
  swap,
  how: byHand,
  packs: [{ place: 'pinion-depth', each: [mm(0.9), mm(0.3), mm(0.1)], pack: mm(1.3) }],
});
const trialBy = (swap: string): Deed =>
  trial.kind === 'assembled' ? { kind: 'assembled', assembly: { ...trial.assembly, swap } } : trial;

describe('the shim drawer', () => {
  it('lacks what was taken out of it after the bench was shut and opened again, and has what came out', async () => {
    const folder = newFolder();
    const before = bench(folder);
    await putInDrawer(before, [0.9, 0.3, 0.1]);
    const { build, swap, read } = await withCard(before);
    valueOf(await writing(before, build)(measuredFor(swap)));
    valueOf(await writing(before, build)(trialBy(swap)));
    const now = await read();
    const followed = now.swaps.find(({ id }) => id === swap);
    if (followed === undefined) throw new Error('no card');
    const drawer = valueOf(await before.answers['drawer.read']({}));
    valueOf(await before.answers['drawer.save']({ drawer: drawerAfter(now, followed, drawer) }));
    await shut();

    const { sizes } = valueOf(await bench(folder).answers['drawer.read']({}));
    expect(sizes.map(({ thickness, count }) => [thickness.value, count])).toEqual([
      [0.9, 2],
      [0.3, 2],
      [0.1, 2],
      [1.42, 1],
    ]);
    await shut();
    expect(valueOf(await bench(folder).answers['drawer.read']({})).sizes).toEqual(sizes);
  });

  it('is empty in a new data folder', async () => {
    expect(valueOf(await bench(newFolder()).answers['drawer.read']({}))).toEqual({ sizes: [] });
  });
});

describe('a swap card', () => {
  const refusal = { ok: false, problem: { kind: 'misplaced', field: 'swap' } };

  it('of another build is refused, for its packs and for a trial, and nothing is written', async () => {
    const service = bench(newFolder());
    const { swap: foreign } = await withCard(service);
    const { build, swap } = await withCard(service);
    const written = valueOf(await service.answers['builds.read']({ build }));
    for (const deed of [measuredFor(foreign), trialBy(foreign), measuredFor('no-such-entry')])
      expect(await writing(service, build)(deed)).toMatchObject(refusal);
    expect(valueOf(await service.answers['builds.read']({ build }))).toEqual(written);
    expect((await writing(service, build)(measuredFor(swap))).ok).toBe(true);
  });

  it('that was struck through is refused too, until it is brought back', async () => {
    const service = bench(newFolder());
    const { build, swap } = await withCard(service);
    valueOf(await service.answers['builds.undo']({ build, by }));
    expect(await writing(service, build)(trialBy(swap))).toMatchObject(refusal);
    valueOf(await service.answers['builds.redo']({ build, by }));
    expect((await writing(service, build)(trialBy(swap))).ok).toBe(true);
  });
});
