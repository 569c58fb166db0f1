import { reclock, type Reclocked, type RunoutVector, worthMoving } from '../../measuring/runout/reclock.ts';
import { degrees, mm, radians, toDegrees } from '../../basics/quantity.ts';
import type { Assembly, Build, Measurement } from '../records/build.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import type { RunoutResult } from '../records/measurement.ts';
import { isNone } from '../../basics/result.ts';
import { readinessOf } from '../checks/readiness.ts';

/** One position of the ring gear on its case, and the once-a-turn runout to expect there. */
interface Position {
  readonly holes: number;
  readonly tir_mm: number;
  readonly U95_mm: number;
  readonly highSpot_deg: number;
}

export interface Reclocking {
  readonly worth: boolean;
  readonly now: Position;
  readonly best: Position;
  /** What nobody noted and was taken as usual. */
  readonly assumed: readonly ('same-place' | 'same-radius')[];
}

export type ReclockStand = { readonly ask: 'bolts' } | Reclocking;

/**
 * Whether turning the ring gear on its flange would make the runout less.
 * @returns undefined while flange and ring gear have not both been read with their places; then there is nothing to ask.
 */
export function reclocking(build: Build & { readonly makeUp: MakeUp }, assembly: Assembly): ReclockStand | undefined {
  const { states } = readinessOf(build, assembly);
  const taken = (check: string) => takenOf(states.find((state) => state.check.id === check)?.measurement);
  const [flange, mounted] = [taken('flange-runout'), taken('ring-gear-runout')];
  if (flange === undefined || mounted === undefined) return undefined;
  const { ringBolts } = build.makeUp;
  return ringBolts === undefined ? { ask: 'bolts' } : decided(flange, mounted, ringBolts);
}

interface Taken {
  readonly vector: RunoutVector;
  readonly fromMesh_deg: number | undefined;
  readonly radius_mm: number | undefined;
}

function takenOf(measurement: Measurement | undefined): Taken | undefined {
  if (measurement?.result.kind !== 'runout') return undefined;
  const vector = firstHarmonic(measurement.result);
  if (vector === undefined) return undefined;
  const { how } = measurement;
  const settings = how.kind === 'streamed' && how.settings.kind === 'runout' ? how.settings : undefined;
  const from = settings?.fromMesh_deg;
  return { vector, fromMesh_deg: typeof from === 'number' ? from : undefined, radius_mm: settings?.radius_mm };
}

/** Three stations leave no scatter to see; then half the doubt of the full movement stands for it. */
function firstHarmonic({ harmonics, u_mm }: RunoutResult): RunoutVector | undefined {
  const first = isNone(harmonics) ? undefined : harmonics.find(({ order }) => order === 1);
  if (first === undefined) return undefined;
  const { amplitude_mm, highSpot_deg } = first;
  const u = Math.max(first.u_mm, isNone(u_mm) ? 0 : u_mm / 2);
  return { amplitude: mm(amplitude_mm), highSpot: degrees(highSpot_deg), u };
}

/** Both in the angles of the flange's reading: only how much further round the stem stood for the gear matters. */
function decided(flange: Taken, mounted: Taken, bolts: number): Reclocking {
  const further = difference(mounted.fromMesh_deg, flange.fromMesh_deg);
  const scale = quotient(mounted.radius_mm, flange.radius_mm);
  const highSpot = radians(mounted.vector.highSpot + degrees(further ?? 0));
  const positions = reclock(flange.vector, { ...mounted.vector, highSpot }, bolts, scale ?? 1);
  const [best, now] = [positions[0], positions.find(({ holes }) => holes === 0)];
  if (best === undefined || now === undefined) throw new RangeError(`a ring gear has no ${bolts} bolts`);
  return {
    worth: worthMoving(positions),
    now: positionOf(now),
    best: positionOf(best),
    assumed: [
      ...(further === undefined ? (['same-place'] as const) : []),
      ...(scale === undefined ? (['same-radius'] as const) : []),
    ],
  };
}

const difference = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a - b;
/** A face that wobbles moves with the radius. */
const quotient = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a / b;

const positionOf = ({ holes, tir, u, highSpot }: Reclocked): Position => ({
  holes,
  tir_mm: tir,
  U95_mm: 2 * u,
  highSpot_deg: toDegrees(highSpot),
});
