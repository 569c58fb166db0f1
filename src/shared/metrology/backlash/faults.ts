import { mean, sd, span } from '../statistics.ts';
import type { BacklashSettings, Refusal, Side } from './measured.ts';
import { levelsOf, rocksOf, valuesOf, type Rest } from './rocks.ts';
import { largestSpread } from './rule.ts';

/** What is known while a station's rests are looked at for faults. All lengths in mm. */
export interface Evidence {
  readonly rests: readonly Rest[];
  readonly settings: BacklashSettings;
  /** Standard deviation of one reading. */
  readonly noise: number;
  /** Where the stem hung free earlier in the session. */
  readonly hangs: number | undefined;
}

/** Swing of the gear at this station: distance of the two sides' means. */
export function swingOf(rests: readonly Rest[]): number {
  const high = levelsOf(rests, 'high');
  const low = levelsOf(rests, 'low');
  return high.length === 0 || low.length === 0 ? 0 : mean(high) - mean(low);
}

/** Standard error of a rest's level, the usual one of these rests. */
const restError = ({ rests, noise }: Evidence): number => noise / Math.sqrt(mean(rests.map((rest) => rest.readings)));

/**
 * The fault that forbids a number, whatever the rocks' spread says, or undefined. In the order in which one explains
 * another: a stem at its end makes one side look pressed home, a wandering base makes rocks differ.
 */
export function faultIn(evidence: Evidence): Refusal | undefined {
  if (evidence.rests.length < 4) return undefined;
  if (atAnEnd(evidence)) return 'end-of-travel';
  if (drifts(evidence)) return 'drift';
  if (creeps(evidence)) return 'not-held';
  return undefined;
}

/** Why rocks that do not repeat do not: one side never pressed home, or no reason that the stream shows. */
export function whyUnlike(evidence: Evidence): Refusal {
  const spreads = (['low', 'high'] as const).map((side) => spreadOf(evidence.rests, side));
  const [lesser = 0, greater = 0] = spreads.toSorted((a, b) => a - b);
  const usual = Math.max(restError(evidence), 0.3 * evidence.settings.resolution);
  return greater > ONE_SIDED * Math.max(lesser, usual) ? 'one-sided' : 'not-repeatable';
}

const ONE_SIDED = 3;
const spreadOf = (rests: readonly Rest[], side: Side): number => {
  const levels = levelsOf(rests, side);
  return levels.length < 2 ? 0 : sd(levels);
};

/** One side's rests stand where the stem has no travel left: the gear may have gone farther than the stem. */
export function atAnEnd(evidence: Evidence): boolean {
  const { rests, settings, hangs } = evidence;
  const ends = [settings.travel?.from, settings.travel?.to, hangs].filter((end) => end !== undefined);
  const near = settings.resolution + (settings.hysteresis ?? 0) + 2 * (settings.gaugeU ?? 0) + 3 * restError(evidence);
  return (['low', 'high'] as const).some((side) => {
    const levels = levelsOf(rests, side);
    return levels.length > 1 && ends.some((end) => Math.abs(mean(levels) - end) <= near);
  });
}

/**
 * Both rests move together. Each rest less the mean of its side: a base or a pinion that moves leaves a step or a
 * slope in that row, common to both sides; a hand that presses unevenly leaves none. Refused when the step or slope
 * explains most of the row and is too large to be chance or to be harmless.
 */
function drifts(evidence: Evidence): boolean {
  const { rests, settings } = evidence;
  if (rests.length < 5) return false;
  const best = movement(rests);
  const swing = swingOf(rests);
  const large = Math.max(DRIFT_OF_SWING * swing, 2 * settings.resolution, 5 * restError(evidence));
  return best.explained >= MOSTLY && Math.abs(best.size) > large;
}

const MOSTLY = 0.75;
const DRIFT_OF_SWING = 0.06;

interface Movement {
  /** Share of the row's squares that it explains. */
  readonly explained: number;
  /** From the first to the last rest. */
  readonly size: number;
}

/** The step or the slope, whichever explains more, that the rests of both sides have in common. */
export function movement(rests: readonly Rest[]): Movement {
  const slope = along(rests, (index) => index);
  const steps = rests.slice(2, -1).map((_, at) => along(rests, (index) => (index < at + 2 ? 0 : 1)));
  const ranked = [slope, ...steps].toSorted((a, b) => b.explained - a.explained);
  return ranked[0] ?? { explained: 0, size: 0 };
}

/** Least squares of the rests on one shape, each side with a mean of its own. */
function along(rests: readonly Rest[], shape: (index: number) => number): Movement {
  const row = centred(rests, (rest) => rest.level);
  const shapes = centred(rests, (_, index) => shape(index));
  let cross = 0;
  let power = 0;
  let whole = 0;
  for (const [index, off] of row.entries()) {
    const along = shapes[index] ?? 0;
    cross += off * along;
    power += along * along;
    whole += off * off;
  }
  if (power === 0 || whole === 0) return { explained: 0, size: 0 };
  const gain = cross / power;
  return { explained: (cross * gain) / whole, size: gain * (shape(rests.length - 1) - shape(0)) };
}

function centred(rests: readonly Rest[], of: (rest: Rest, index: number) => number): readonly number[] {
  const values = rests.map(of);
  const meanOf = (side: Side) => mean(values.filter((_, index) => rests[index]?.side === side));
  const centres = { low: meanOf('low'), high: meanOf('high') };
  return values.map((value, index) => value - centres[rests[index]?.side ?? 'low']);
}

/**
 * Rests that creep, on the whole away from their stops: the gear was let go of. One rest alone creeps by chance or by
 * a late press; all of them do so for a reason.
 */
function creeps(evidence: Evidence): boolean {
  const { rests, settings, noise } = evidence;
  const inward = rests.map((rest) => (rest.side === 'high' ? -rest.creep : rest.creep));
  // Slope error of a straight line through n readings, over its length: √12·noise/√n.
  const own = Math.sqrt(mean(rests.map((rest) => (12 * noise * noise) / rest.readings)) / rests.length);
  const among = inward.length > 1 ? sd(inward) / Math.sqrt(inward.length) : 0;
  const harmless = Math.max(settings.resolution, CREEP_OF_SWING * swingOf(rests));
  return Math.abs(mean(inward)) > Math.max(harmless, 4 * Math.max(own, among));
}

const CREEP_OF_SWING = 0.03;

/** Rocks as far apart as two units of length would make them. */
export function unitsApart(one: number, other: number): boolean {
  const ratio = Math.max(one, other) / Math.min(one, other);
  return ratio > 20 && ratio < 32;
}

/** For a screen that shows how far the rocks are from repeating. */
export function spreadAgainstLimit({ rests, settings, noise }: Evidence): {
  readonly sd: number;
  readonly limit: number;
} {
  const values = valuesOf(rocksOf(rests));
  if (values.length < 2) return { sd: span(values), limit: Infinity };
  return { sd: sd(values), limit: largestSpread(values.length, settings.resolution, noise, mean(values)) };
}
