import { mean, median, sd } from '../../basics/statistics.ts';
import type { BacklashSettings, Refusal, Side } from './measured.ts';
import { levelsOf, type Rest } from './rocks.ts';
import { OF_HAND } from './rule.ts';
import type { Turn } from './turns.ts';

/** What is known while a station's rests are looked at for faults. All lengths in mm. */
export interface Evidence {
  readonly rests: readonly Rest[];
  /** The turns before the first rest. */
  readonly earlier: readonly Turn[];
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
const restError = ({ rests, noise }: Evidence): number =>
  rests.length === 0 ? noise : noise / Math.sqrt(mean(rests.map((rest) => rest.readings)));

/**
 * The fault that forbids a number, whatever the rocks' spread says, or undefined. In the order in which one explains
 * another: a stem at its end makes one side look pressed home, a wandering base makes rocks differ.
 */
export function faultIn(evidence: Evidence): Refusal | undefined {
  if (Math.min(levelsOf(evidence.rests, 'low').length, levelsOf(evidence.rests, 'high').length) < 2) return undefined;
  if (atAnEnd(evidence)) return 'end-of-travel';
  if (drifts(evidence)) return 'drift';
  if (creeps(evidence)) return 'not-held';
  return undefined;
}

/** Why rocks that do not repeat do not: one side never pressed home, or no reason that the stream shows. */
export const whyUnlike = (evidence: Evidence): Refusal =>
  isLopsided(evidence, LOPSIDED_LOOK) ? 'one-sided' : 'not-repeatable';

/** One side's rests scatter so many times as much as the other's and as noise explains: more rocks must show why. */
export const LOPSIDED_LOOK = 3;
/** The same where no more rocks will come. Chance does this to fewer than one station of normal scatter in a thousand. */
export const LOPSIDED_LEFT = 6;

/** Only one side is pressed home: its rests repeat, the other's do not. */
export function isLopsided(evidence: Evidence, times: number): boolean {
  const spreads = (['low', 'high'] as const).map((side) => spreadOf(evidence.rests, side));
  const lesser = Math.min(...spreads);
  const greater = Math.max(...spreads);
  const swing = swingOf(evidence.rests);
  const explained = Math.max(1.5 * restError(evidence), 0.5 * evidence.settings.resolution, OF_HAND * swing);
  return greater > Math.max(times * lesser, 2 * explained);
}

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
  const large = Math.max(DRIFT_OF_SWING * swingOf(rests), 2 * settings.resolution, 6 * restError(evidence));
  if (rockedElsewhere(evidence, large)) return true;
  return [rests, withBefore(evidence)].some((row) => {
    const best = row.length < 5 ? { explained: 0, size: 0 } : movement(row);
    return best.explained >= MOSTLY && Math.abs(best.size) > large;
  });
}

/** Before the first rest there was a stroke just as long, between two other places: the same rock, before the move. */
function rockedElsewhere(evidence: Evidence, large: number): boolean {
  const { rests, earlier, hangs } = evidence;
  const swing = swingOf(rests);
  const middle = mean(levelsOf(rests, 'low')) + swing / 2;
  const alike = Math.max(SAME_STROKE * swing, 3 * restError(evidence));
  return earlier.some(({ level }, at) => {
    const next = earlier[at + 1];
    if (next === undefined || (hangs !== undefined && Math.abs(level - hangs) <= alike)) return false;
    const isSame = Math.abs(Math.abs(next.level - level) - swing) <= alike;
    return isSame && Math.abs((next.level + level) / 2 - middle) > large;
  });
}

const SAME_STROKE = 0.02;

/** With the turn before the first rest, as if it were one: a step that it shares with the first rest is a step. */
function withBefore({ rests, earlier }: Evidence): readonly Rest[] {
  const [first] = rests;
  const before = earlier.at(-1);
  if (first === undefined || before === undefined) return rests;
  return [{ ...before, side: first.side === 'low' ? 'high' : 'low', stretch: first.stretch }, ...rests];
}

const MOSTLY = 0.85;
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
  if (median(rests.map((rest) => rest.still)) < SHORTEST_HELD) return true;
  if (median(rests.map((rest) => rest.lingers / rest.still)) > LETS_GO) return true;
  const inward = rests.map((rest) => (rest.side === 'high' ? -rest.creep : rest.creep));
  // Slope error of a straight line through n readings, over its length: √12·noise/√n.
  const own = Math.sqrt(mean(rests.map((rest) => (12 * noise * noise) / rest.readings)) / rests.length);
  const among = inward.length > 1 ? sd(inward) / Math.sqrt(inward.length) : 0;
  const creep = mean(inward);
  // The end of a bounce still swings outwards, so a creep that way must be the larger one.
  const size = Math.max(settings.resolution, CREEP_OF_SWING * swingOf(rests));
  // A gear let go of slowly seems to stand for a few readings only, and creeps in them by the noise of so few. That all its rests
  // creep alike, and inwards, tells it from chance.
  const isShort = median(rests.map((rest) => rest.still)) < SHORT;
  if (isShort && creep > Math.max(size, ALIKE * among)) return true;
  const harmless = (creep > 0 ? 1 : OUTWARD) * size;
  return Math.abs(creep) > Math.max(harmless, 4 * own, 3 * among);
}

/** Readings of a still below which its own creep cannot be told from noise. */
const SHORT = 8;
const ALIKE = 2.5;

const OUTWARD = 4;
const CREEP_OF_SWING = 0.03;
/** Three readings stand still at the turn of any stroke, held or not. */
const SHORTEST_HELD = 4;
/** A stroke leaves a held rest faster than this share of its length; common hands take up to half of it. */
const LETS_GO = 1;
