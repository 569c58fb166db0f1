import { shimPlaces, shimPlacesOf, type ShimPlace } from '../../../src/shared/axle/makeUp.ts';
import { checkOf } from '../../../src/shared/job/checks/checks.ts';
import { type Assembly, packAt } from '../../../src/shared/job/records/build.ts';
import type { CheckId } from '../../../src/shared/job/records/checkIds.ts';
import type { How, MeasuredResult } from '../../../src/shared/job/records/measurement.ts';
import { insideOf } from '../../../src/shared/basics/recorded.ts';
import { markFor } from './drawing.ts';
import type { Walk } from './walk.ts';

const step = (unit: string): How => ({ kind: 'typed', tool: 'Tool', resolution: { value: 0.01, unit } });

/** What the pedal cannot write, written by somebody beside the person: the bench tells the page. */
export async function typedBeside(walk: Walk, assembly: Assembly, check: CheckId): Promise<void> {
  walk.helped.add(check);
  const { how, result } = await entryFor(walk, assembly, check);
  await walk.write({ kind: 'measured', assembly: assembly.id, check, how, result });
}

async function entryFor(
  walk: Walk,
  assembly: Assembly,
  id: CheckId,
): Promise<{ readonly how: How; readonly result: MeasuredResult }> {
  const { method } = checkOf(id, walk.job.makeUp);
  const seen = { kind: 'seen' } as const;
  if (method === 'set-numbers') return { how: seen, result: { kind: 'set-numbers', pinion: '41', ringGear: '41' } };
  if (method === 'mark') return { how: seen, result: await markFor(walk, assembly) };
  if (id === 'oil') return { how: seen, result: { kind: 'confirmed', yes: true, oil: { name: 'HG 90' } } };
  if (id === 'bolts-locked') return { how: seen, result: { kind: 'confirmed', yes: true, counted: 10 } };
  if (method === 'shims') {
    const packs = await packsFor(walk, assembly);
    const written = shimPlacesOf(walk.job.makeUp).map((place) => ({
      place,
      each: [],
      pack: { value: packs[place], unit: 'mm' },
    }));
    return { how: step('mm'), result: { kind: 'shims', packs: written } };
  }
  const unit = method === 'fastener' ? 'N.m' : 'mm';
  return { how: step(unit), result: { kind: 'quantity', value: { value: walk.job.read[id] ?? 0, unit } } };
}

/** Added on each side in the final assembly, so that the case is preloaded and the ring gear stays. */
const preload_mm = 0.1;

/**
 * The packs an assembly goes together with: the job's own for the first, then those of the trial before; in the final one the
 * side packs are thicker by the preload.
 */
export async function packsFor({ read, job }: Walk, assembly: Assembly): Promise<Readonly<Record<ShimPlace, number>>> {
  const { assemblies } = await read();
  const before = assemblies.slice(
    0,
    assemblies.findIndex(({ id }) => id === assembly.id),
  );
  const packs = shimPlaces.map((place) => {
    const last = before.findLast((one) => one.phase === 'trial' && packAt(one, place) !== undefined);
    const pack = last === undefined ? undefined : packAt(last, place)?.pack;
    const as = pack === undefined ? job.packs_mm[place] : insideOf(pack);
    const side = place === 'ring-side' || place === 'opposite-side';
    return [place, Math.round((as + (assembly.phase === 'final' && side ? preload_mm : 0)) * 1e4) / 1e4] as const;
  });
  return Object.fromEntries(packs) as Record<ShimPlace, number>;
}
