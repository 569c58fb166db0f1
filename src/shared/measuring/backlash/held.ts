import { mean, median, sd } from '../../basics/statistics.ts';
import type { Evidence } from './evidence.ts';
import type { Between, Row } from './neighbours.ts';
import type { Rest } from './rocks.ts';

/** How well the gear was held at its rests, beyond what noise and rounding make of readings. Lengths in mm. */
export interface Held {
  /** Standard deviation of a rest that the gauge does not explain; 0 where it explains all. */
  readonly unexplained: number;
  /** What creeping inwards or outwards while they were read leaves open; 0 where chance explains the creep. */
  readonly creep: number;
  /** What a sway in step with the rocking would make of the backlash, as the bow of the rests shows it; 0 where chance does. */
  readonly sway: number;
}

/** @param noise standard deviation of one reading, @param resolution step of the display, both in mm. */
export function heldAt(
  rests: Row,
  { sd: spread }: Between,
  { noise, resolution }: { readonly noise: number; readonly resolution: number },
): Held {
  const bows = rests.map(({ side, bow }) => (side === 'high' ? -bow : bow));
  return {
    unexplained: beyond(spread, explainedSd(rests, noise, resolution)),
    creep: MISSED * beyond(mean(rests.map(inwardOf)), errorOf(rests.map(inwardOf))),
    sway: beyond(mean(bows), 3 * Math.max(errorOf(bows), ofNoise(BOW, rests, noise))) * ofBow(rests),
  };
}

/**
 * Of a stop that was met, or will be, before or after the settled part of a rest, so much of what crept while it was read is
 * missing on the two sides together (derived for a creep that slows down as it goes; own choice in between).
 */
const MISSED = 1.5;

/** Standard error of a mean, as the values themselves show it. */
const errorOf = (values: readonly number[]): number => (values.length < 2 ? 0 : sd(values) / Math.sqrt(values.length));

/** Standard errors of slope and bow of n readings with noise σ, over their length, in σ/√n: √12 and √180/4 (derived). */
const SLOPE = Math.sqrt(12);
const BOW = Math.sqrt(180) / 4;

/** What noise makes of the mean slope or bow of these rests: in a few of them they may agree by chance. */
const ofNoise = (factor: number, rests: readonly Rest[], noise: number): number =>
  factor * noise * Math.sqrt(mean(rests.map(({ readings }) => 1 / readings)) / rests.length);

/**
 * Do the readings wander while the gear is held, by more than noise makes of a straight line through them? A drift that all
 * rests have in common is none, it is told as what it is; nor is one rest that a hand hesitated at.
 */
export function wanders({ rests, noise, settings, between }: Evidence): boolean {
  const { sway } = heldAt(rests, between, { noise, resolution: settings.resolution });
  const slopes = rests.map(({ creep }) => creep);
  const middle = median(slopes);
  const nearer = slopes.toSorted((one, other) => Math.abs(one - middle) - Math.abs(other - middle)).slice(0, -1);
  const usual = nearer.length < 2 ? 0 : sd(nearer);
  const explained = ofNoise(SLOPE, rests, noise) * Math.sqrt(rests.length);
  return sway > settings.resolution || usual > Math.max(NOISES * explained, STEPS * settings.resolution);
}

const STEPS = 2;
const NOISES = 3;

/**
 * A sway whose period is that of the rocking stands at the same place at every rest of a side, and opposite at the other:
 * rests repeat, and the backlash is off by twice its height there. What tells it is the bow of every rest. A sine of period
 * 2Δ, Δ from rest to rest, that bows by b within T stands off by 8·b·Δ²/(π²·T²); derived.
 */
function ofBow(rests: Row): number {
  const [first, last] = [rests[0], rests.at(-1)];
  const read_s = mean(rests.map((rest) => rest.read_s));
  if (first === undefined || last === undefined || !(read_s > 0)) return 0;
  const apart_s = (last.at_t - first.at_t) / (rests.length - 1);
  return apart_s > 0 ? (16 / Math.PI ** 2) * (apart_s / read_s) ** 2 : 0;
}

/** Standard deviation of a rest's level as noise and rounding explain it. */
export const explainedSd = (rests: readonly Rest[], noise: number, resolution: number): number =>
  Math.hypot(noise * Math.sqrt(mean(rests.map(({ readings }) => 1 / readings))), resolution / Math.sqrt(12));

const inwardOf = ({ side, creep }: Rest): number => (side === 'high' ? -creep : creep);

/** What is left of a size when what chance makes of it is taken off, in squares. */
const beyond = (size: number, chance: number): number => Math.sqrt(Math.max(0, size * size - chance * chance));

/**
 * Rests that creep, on the whole away from their stops: the gear was let go of. One rest alone creeps by chance or by
 * a late press; all of them do so for a reason.
 */
export function creeps(evidence: Evidence): boolean {
  const { rests, settings, noise } = evidence;
  if (median(rests.map((rest) => rest.still)) < SHORTEST_HELD) return true;
  if (median(rests.map((rest) => rest.lingers / rest.still)) > LETS_GO) return true;
  const inward = rests.map(inwardOf);
  const own = ofNoise(SLOPE, rests, noise);
  const among = errorOf(inward);
  const creep = mean(inward);
  // The end of a bounce still swings outwards, so a creep that way must be the larger one.
  const size = Math.max(settings.resolution, CREEP_OF_SWING * evidence.between.value);
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
