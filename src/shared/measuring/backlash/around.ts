import { mm, type Length } from '../../basics/quantity.ts';
import { isNone, none } from '../../basics/result.ts';
import { mean } from '../../basics/statistics.ts';
import { tQuantile } from '../../basics/studentT.ts';
import { combine, type CombinedUncertainty, type UncertaintyPart } from '../uncertainty/uncertainty.ts';
import type { BacklashMeasured, StationMeasured } from './measured.ts';

/** A station that has its number: mm, and where its doubt comes from. */
interface Valued {
  readonly value: number;
  readonly parts: readonly UncertaintyPart[];
}

/** What the stations say together: mean, smallest, largest, and how they vary, each of the last with a doubt of its own. */
export function aroundTheGear(stations: readonly StationMeasured[]): BacklashMeasured {
  const valued = stations.flatMap(({ value, parts }) => (isNone(value) ? [] : [{ value, parts }]));
  const values = valued.map(({ value }) => value);
  if (values.length === 0) return nothingMeasured(stations);
  const [min, max] = [Math.min(...values), Math.max(...values)];
  const meanOf: Length = mm(mean(values));
  const known = { stations, mean: meanOf, meanU95: mm(meanDoubt(valued).U95), min: mm(min), max: mm(max) };
  if (values.length === 1) return { ...known, variation: none('one-station'), variationU95: none('one-station') };
  return { ...known, variation: mm(max - min), variationU95: mm(variationDoubt(valued).U95) };
}

function nothingMeasured(stations: readonly StationMeasured[]): BacklashMeasured {
  const missing = none('nothing-measured');
  return {
    stations,
    mean: missing,
    meanU95: missing,
    min: missing,
    max: missing,
    variation: missing,
    variationU95: missing,
  };
}

/** What one gauge and one set-up put into every station alike: no number of stations averages it away. */
const ALIKE: ReadonlySet<string> = new Set([
  'gauge',
  'hysteresis',
  'hysteresis, not stated',
  'short of the stop',
  'creep',
  'stem angle',
  'stem radius',
]);

/** Of those, what falls out of a difference of two stations, because it shifts both by the same. */
const FALLS_OUT: ReadonlySet<string> = new Set(['hysteresis', 'hysteresis, not stated', 'stem angle', 'stem radius']);

/**
 * Doubt of the mean of these stations (GUM 5.1.2 and 5.2.2): a part that every station shares counts with the mean of its
 * sizes, a part of each station's own with its share of 1/n. Of the stations that were measured, not of the teeth between.
 */
export function meanDoubt(stations: readonly Valued[]): CombinedUncertainty {
  const own = stations.flatMap(({ parts }) => parts.filter(({ name }) => !ALIKE.has(name)));
  const shared = [...ALIKE].flatMap((name) => sharedPart(stations, name));
  return combine([...shared, ...own.map((part) => ({ ...part, u: part.u / stations.length }))]);
}

function sharedPart(stations: readonly Valued[], name: string): readonly UncertaintyPart[] {
  const parts = stations.flatMap((station) => station.parts.filter((part) => part.name === name));
  const u = parts.reduce((sum, part) => sum + part.u, 0) / stations.length;
  const degrees = parts.flatMap(({ nu }) => (nu === undefined ? [] : [nu]));
  return parts.length === 0 ? [] : [{ name, u, ...(degrees.length === 0 ? {} : { nu: Math.min(...degrees) }) }];
}

/**
 * Doubt of the largest less the smallest. Which two these are was decided by the readings, so the largest is too large
 * and the smallest too small by chance: an even gear varies on paper. An interval that holds for every pair of stations
 * at once holds for the pair that was picked (Bonferroni): t at 1 − 0.025/pairs in place of 0.975.
 */
export function variationDoubt(stations: readonly Valued[]): CombinedUncertainty {
  const sorted = stations.toSorted((one, other) => one.value - other.value);
  const ends = [sorted[0], sorted.at(-1)].filter((station) => station !== undefined);
  const parts = ends.flatMap((station) => station.parts.filter(({ name }) => !FALLS_OUT.has(name)));
  const doubt = combine(parts);
  const pairs = (stations.length * (stations.length - 1)) / 2;
  const k = pairs < 1 ? doubt.k : tQuantile(1 - 0.025 / pairs, doubt.nu);
  return { ...doubt, k, U95: k * doubt.u };
}
