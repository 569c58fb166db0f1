import { expect, it, onTestFinished } from 'vitest';
import { readNotebook } from '../../../src/shared/job/records/build.ts';
import type { Deed } from '../../../src/shared/job/records/notebook.ts';
import { makeSwap } from '../../../src/shared/job/swap/makeSwap.ts';
import { benchInNewFolder, valueOf } from '../../support/bench/open.ts';
import { buildForPlan } from '../../support/planBuild.ts';
import { makeUp } from '../../support/records/scenario.ts';
import { expectedAt } from '../../support/records/trials.ts';

const by = 'R. Lindqvist';

it('a swap card names the packs that follow from those measured, whatever a screen sent', async () => {
  const service = benchInNewFolder();
  onTestFinished(async () => void (await service.close()));
  const { build, trial } = await buildForPlan(service);
  const read = async () => readNotebook(build, valueOf(await service.answers['builds.read']({ build })).entries);
  const { assemblies, makeUp: described } = await read();
  const stood = assemblies.find(({ id }) => id === trial);
  if (stood === undefined || described === undefined) throw new Error('no trial to start from');
  const move = { pinionOut: 0.12, ringAway: 0.05 };
  const right = valueOf(makeSwap(described, stood, { by: 'plan', move, expected: expectedAt(0.2) }));
  const write = (deed: Deed) => service.answers['builds.write']({ build, by, deed });
  const bent = right.lines.map((line) => ({ ...line, wanted_mm: line.wanted_mm + 0.5 }));
  for (const lines of [right.lines, bent, [], bent.slice(0, 1)])
    valueOf(await write({ kind: 'swap-planned', assembly: trial, swap: { ...right, lines } }));
  const { swaps } = await read();
  expect(swaps.map(({ lines }) => lines)).toEqual(Array.from({ length: 4 }, () => right.lines));
  expect(right.lines.length).toBeGreaterThan(1);
});

it('and none is made where a pack that must change was not measured, or the axle is not described', async () => {
  const service = benchInNewFolder();
  onTestFinished(async () => void (await service.close()));
  const { id: build } = valueOf(await service.answers['builds.start']({ title: 'Bare', technician: by }));
  const write = (deed: Deed) => service.answers['builds.write']({ build, by, deed });
  const assembly = { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false } as const;
  const { entries } = valueOf(await write({ kind: 'assembled', assembly }));
  const trial = entries.at(-1)?.id ?? '';
  const swap = { chosenBy: 'own', pinionOut_mm: 0.1, ringAway_mm: 0, lines: [], expected: expectedAt(0.2) } as const;
  const planned: Deed = { kind: 'swap-planned', assembly: trial, swap: { ...swap, lines: [] } };
  expect(await write(planned)).toMatchObject({ ok: false, problem: { kind: 'not-described' } });
  valueOf(await write({ kind: 'described', makeUp }));
  expect(await write(planned)).toMatchObject({ ok: false, problem: { kind: 'pack-not-measured' } });
});
