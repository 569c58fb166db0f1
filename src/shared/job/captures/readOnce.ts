import { aroundTheGear } from '../../measuring/backlash/around.ts';
import {
  combine,
  type CombinedUncertainty,
  resolutionOf,
  resolutionOfDifference,
} from '../../measuring/uncertainty/uncertainty.ts';
import { mm, seconds } from '../../basics/quantity.ts';
import type { BacklashBasis, TorqueBasis } from '../../basics/recorded.ts';
import { none } from '../../basics/result.ts';
import type { BacklashResult, RunoutResult, StationResult, TorqueResult } from '../records/measurement.ts';

/**
 * Flag of a number that somebody read once off a dial and typed. It has no readings, no rocks and no turns, and nothing tells how
 * well it repeats: its doubt is the step of the scale alone, and whoever shows the number says so.
 */
export const readOnce = 'read-once';

export const isReadOnce = ({ flags }: { readonly flags: readonly string[] }): boolean => flags.includes(readOnce);

/**
 * A backlash and a runout are each the difference of two readings of the dial, the one it was zeroed at among them: both are
 * rounded, anywhere within half a step (GUM F.2.2.1), which is δ/√6 together.
 */
const differenceDoubt = (step: number): CombinedUncertainty =>
  combine([{ name: 'resolution', u: resolutionOfDifference(step) }]);

/** A backlash as it was read off a dial. */
interface BacklashRead {
  /** One number a station in its order round the gear, in mm; undefined where none was read. */
  readonly values: readonly (number | undefined)[];
  readonly basis: BacklashBasis;
  /** Step of the dial's scale in mm. */
  readonly step: number;
}

/** A station that was left out keeps its place round the gear, and has no number. */
export function backlashReadOnce({ values, basis, step }: BacklashRead): BacklashResult {
  const doubt = differenceDoubt(step);
  const read = values.filter((value) => value !== undefined);
  const { stations: _, ...together } = aroundTheGear(read.map((value) => asMeasured(value, doubt)));
  return {
    kind: 'backlash',
    basis,
    stations: values.map((value, index) => station(index + 1, value, doubt)),
    mean_mm: together.mean,
    meanU95_mm: together.meanU95,
    min_mm: together.min,
    max_mm: together.max,
    variation_mm: together.variation,
    variationU95_mm: together.variationU95,
  };
}

/** The same as measuring takes it, to be added up with the others. */
const asMeasured = (value: number, { u, U95, parts }: CombinedUncertainty) => ({
  value: mm(value),
  rocks: 0,
  sd: mm(0),
  u: mm(u),
  U95: mm(U95),
  flags: [],
  parts,
  from_t: seconds(0),
  to_t: seconds(0),
});

function station(number: number, value: number | undefined, doubt: CombinedUncertainty): StationResult {
  const missing = none('not-measured');
  const place = { number, rocks: 0, sd_mm: missing };
  return value === undefined
    ? { ...place, value_mm: missing, u_mm: missing, U95_mm: missing, flags: [], parts: [] }
    : {
        ...place,
        value_mm: value,
        u_mm: doubt.u,
        U95_mm: doubt.U95,
        flags: [readOnce],
        parts: partsOf(doubt),
      };
}

/**
 * A runout as somebody saw the needle swing over one turn. It has no places, so that nothing tells its shape.
 * @param tir from the lowest place to the highest, in mm
 * @param step of the dial's scale, in mm
 */
export function runoutReadOnce(tir: number, step: number): RunoutResult {
  const doubt = differenceDoubt(step);
  return {
    kind: 'runout',
    tir_mm: tir,
    harmonics: none('no-angle'),
    residual_mm: none('no-angle'),
    stations: [],
    missAtWorst_mm: none('not-measured'),
    shape: 'unknown',
    u_mm: doubt.u,
    U95_mm: doubt.U95,
    flags: [readOnce],
    parts: partsOf(doubt),
  };
}

/**
 * A rotating torque as the needle of a wrench stood: running or starting, as its basis says, and nothing of the other.
 * @param value in N·m
 * @param step of the wrench's scale, in N·m
 */
export function torqueReadOnce(value: number, basis: TorqueBasis, step: number): TorqueResult {
  const doubt = combine([{ name: 'resolution', u: resolutionOf(step) }]);
  const missing = none('not-measured');
  const rest = {
    kind: 'torque',
    basis,
    ripple_Nm: missing,
    drift_Nm: missing,
    average: readOnce,
    turns: 0,
  } as const;
  return basis.basis === 'starting'
    ? {
        ...rest,
        flags: [readOnce],
        running_Nm: missing,
        u_Nm: missing,
        U95_Nm: missing,
        parts: [],
        breakaway_Nm: value,
        breakawayU95_Nm: doubt.U95,
        breakawayParts: partsOf(doubt),
      }
    : {
        ...rest,
        flags: [readOnce],
        breakaway_Nm: missing,
        breakawayU95_Nm: missing,
        running_Nm: value,
        u_Nm: doubt.u,
        U95_Nm: doubt.U95,
        parts: partsOf(doubt),
      };
}

const partsOf = ({ parts }: CombinedUncertainty) => parts.map(({ name, u }) => ({ name, u }));
