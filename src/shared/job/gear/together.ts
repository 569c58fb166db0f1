import { type BacklashPoint, compareTogether, type RunoutHarmonic, type Together } from '../../measuring/together.ts';
import { type Angle, degrees, mm, toDegrees } from '../../basics/quantity.ts';
import type { Assembly, Build, Measurement } from '../records/build.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import type { BacklashResult, RunoutResult } from '../records/measurement.ts';
import { isNone, none, type OrNone } from '../../basics/result.ts';
import { readinessOf } from '../checks/readiness.ts';
import { runoutToBacklash } from './runoutToBacklash.ts';

export type WhyNotTogether =
  /** Where the indicator sat from the mesh was not noted, or nobody knows. */
  | 'no-angle'
  | 'too-few-stations'
  /** The runout has no places: one turn without the gear's angle. */
  | 'no-harmonics'
  /** A backlash felt at a radius says nothing while the size of the gear is not known. */
  | 'no-size'
  | 'no-such-set';

/** Whether backlash and runout of one assembly fit together, in figures; words/together.ts says it. */
export type GearTogether =
  | { readonly answer: 'cannot-tell'; readonly reason: WhyNotTogether }
  | ({ readonly answer: Exclude<Together['answer'], 'cannot-tell'> } & GearFigures);

export interface GearFigures {
  /** Largest minus smallest backlash as measured, and what the runout alone makes. */
  readonly variation_mm: number;
  readonly expected_mm: number;
  /** Full movement of the largest wave that the runout leaves unexplained, and where it is widest. */
  readonly left_mm: number;
  readonly leftAt_deg: number;
  /** Where the runout makes the backlash widest. */
  readonly widestAt_deg: number;
  /** Stations that stand off what once and twice a turn can make. */
  readonly odd: readonly number[];
}

/** @returns undefined while one of the two has not been measured. */
export function gearTogether(build: Build & { readonly makeUp: MakeUp }, assembly: Assembly): GearTogether | undefined {
  const { states } = readinessOf(build, assembly);
  const measured = (check: string) => states.find((state) => state.check.id === check)?.measurement;
  const [backlash, runout] = [measured('backlash'), measured('ring-gear-runout')];
  if (backlash?.result.kind !== 'backlash' || runout?.result.kind !== 'runout') return undefined;
  return compare(build.makeUp, backlash.result, runout.result, placedOf(runout));
}

interface RunoutPlaced {
  readonly fromMesh_deg?: OrNone<number> | undefined;
  readonly radius_mm?: number | undefined;
}

/** How the runout was taken; one that was not streamed has no places. */
const placedOf = ({ how }: Measurement): RunoutPlaced =>
  how.kind === 'streamed' && how.settings.kind === 'runout' ? how.settings : {};

function compare(
  makeUp: MakeUp,
  backlash: BacklashResult,
  runout: RunoutResult,
  { fromMesh_deg = none('not-asked'), radius_mm }: RunoutPlaced,
): GearTogether {
  if (isNone(runout.harmonics) || runout.harmonics.length === 0) return cannotTell('no-harmonics');
  if (isNone(fromMesh_deg)) return cannotTell('no-angle');
  const ratio = runoutToBacklash(makeUp, backlash.basis, radius_mm);
  if (isNone(ratio)) return cannotTell(ratio.none);
  const together = compareTogether({
    backlash: pointsOf(backlash),
    runout: harmonicsOf(runout.u_mm, runout.harmonics),
    indicatorFromMesh: degrees(fromMesh_deg),
    ratio,
  });
  if (together.answer === 'cannot-tell') return cannotTell(together.reason ?? 'no-angle');
  return { answer: together.answer, ...figuresOf(together, backlash) };
}

const cannotTell = (reason: WhyNotTogether): GearTogether => ({ answer: 'cannot-tell', reason });

/** Where a station lies on the ring gear: as its angle was measured, else in equal parts from station 1. */
const placeOf = (number: number, of: number, measured_deg?: number): Angle =>
  degrees(measured_deg ?? ((number - 1) * 360) / Math.max(of, 1));

const pointsOf = ({ stations }: BacklashResult): readonly BacklashPoint[] =>
  stations.flatMap(({ number, gearAngle_deg, value_mm, u_mm }) => {
    if (isNone(value_mm)) return [];
    const gearAngle = placeOf(number, stations.length, gearAngle_deg);
    return [{ gearAngle, backlash: mm(value_mm), u: isNone(u_mm) ? 0 : u_mm }];
  });

/** Three stations leave no scatter to see; then the doubt of the full movement, halved as an amplitude is, stands for it. */
const harmonicsOf = (
  u_mm: OrNone<number>,
  harmonics: Exclude<RunoutResult['harmonics'], { readonly none: string }>,
): readonly RunoutHarmonic[] =>
  harmonics.map((one) => ({
    order: one.order,
    amplitude: mm(one.amplitude_mm),
    highSpot: degrees(one.highSpot_deg),
    u: Math.max(one.u_mm, isNone(u_mm) ? 0 : u_mm / 2),
  }));

function figuresOf({ orders, odd, expectedAt }: Together, { stations }: BacklashResult): GearFigures {
  const made: readonly number[] = Array.from({ length: 360 }, (_, at) => expectedAt?.(degrees(at)) ?? 0);
  const [left] = orders.map((order) => order.left).toSorted((a, b) => b.amplitude - a.amplitude);
  const values = stations.flatMap(({ value_mm }) => (isNone(value_mm) ? [] : [value_mm]));
  const isOdd = (place: Angle): boolean => odd.some((angle) => angle === place);
  return {
    variation_mm: Math.max(...values) - Math.min(...values),
    expected_mm: Math.max(...made) - Math.min(...made),
    left_mm: 2 * (left?.amplitude ?? 0),
    leftAt_deg: toDegrees(left?.highSpot ?? degrees(0)),
    widestAt_deg: made.indexOf(Math.max(...made)),
    odd: stations.flatMap(({ number, gearAngle_deg }) =>
      isOdd(placeOf(number, stations.length, gearAngle_deg)) ? [number] : [],
    ),
  };
}
