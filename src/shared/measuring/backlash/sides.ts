import { sd } from '../../basics/statistics.ts';
import { explainedSd } from './held.ts';
import type { Evidence } from './evidence.ts';
import type { Flag, Refusal, Side } from './measured.ts';
import type { Between, Row } from './neighbours.ts';
import { levelsOf } from './rocks.ts';

/** Whether the two sides are alike, and what is said where rests differ too much for a number. */

/**
 * One side's rests repeat and the other's do not: only one side is pressed home. What is left short is tens of percent of
 * the backlash; a side that merely scatters by little beside it is counted in the doubt, and told.
 */
function isLopsided(evidence: Evidence, times: number, ofBacklash: number): boolean {
  const { between, rests, noise, settings } = evidence;
  const explained = EXPLAINED_TIMES * explainedSd(rests, noise, settings.resolution);
  const least = Math.max(explained, ofBacklash * between.value);
  return [aboutTheirMeans(rests), aboutTheLine(between)].some(
    ({ low, high }) => Math.max(low, high) > Math.max(times * Math.min(low, high), least),
  );
}

/** Of the scatter that noise and rounding explain. */
const EXPLAINED_TIMES = 2;
/** Of the backlash: a side that differs by so much is worth a word, by so much more it has not met its stop (own choice). */
const WORTH_A_WORD = 0.015;
const LEFT_SHORT = 0.04;
/** More rocks are asked for where one side scatters so many times as much as the other: they show whether it is a habit. */
const LOOKS_LOPSIDED = 3;

/**
 * So many times is no chance: with four rests on a side normal scatter does 6 times in one station of fifty (F₃,₃), with
 * eight it does 3 times in one of a hundred (F₇,₇); derived.
 */
const noChance = (rests: number): number => (rests < 12 ? 6 : 3);

type Spreads = Readonly<Record<Side, number>>;

/** As if nothing drifted: a drift would make both sides scatter alike, so it makes neither the odd one. */
const aboutTheirMeans = (rests: Row): Spreads => ({
  low: spread(levelsOf(rests, 'low')),
  high: spread(levelsOf(rests, 'high')),
});

/** Drift set aside; in a few rests an odd one bends the line and lends the other side some of its scatter. */
const aboutTheLine = ({ offs }: Between): Spreads => {
  const of = (wanted: Side) => spread(offs.flatMap(({ side, off }) => (side === wanted ? [off] : [])));
  return { low: of('low'), high: of('high') };
};

const spread = (values: readonly number[]): number => (values.length < 2 ? 0 : sd(values));

/** Rests differ by more than this share of the backlash: more of them are asked for, and what is given is flagged. */
const UNUSUAL = 0.03;
/** By more than this no number is given: what is measured is then no stop. */
const NO_STOP = 0.06;
/** Noise and rounding alone make a spread of eight rests so many times larger once in a thousand: √(χ²₀.₉₉₉(5)/5), derived. */
const ONE_IN_A_THOUSAND = 2.03;

const differ = ({ between, rests, noise, settings }: Evidence, share: number): boolean =>
  between.sd > Math.max(share * between.value, ONE_IN_A_THOUSAND * explainedSd(rests, noise, settings.resolution));

/** Would more rocks tell something? */
export const wantsMore = (evidence: Evidence): boolean =>
  differ(evidence, UNUSUAL) || isLopsided(evidence, LOOKS_LOPSIDED, WORTH_A_WORD);

/** What is told beside a number whose rests are unlike. */
export const oddities = (evidence: Evidence): readonly Flag[] => [
  ...(differ(evidence, UNUSUAL) ? (['not-repeatable'] as const) : []),
  ...(isLopsided(evidence, noChance(evidence.rests.length), WORTH_A_WORD) ? (['one-sided'] as const) : []),
];

/** Why rests differ too much for a number, or undefined where they do not. */
export function unlike(evidence: Evidence): Refusal | undefined {
  if (isLopsided(evidence, noChance(evidence.rests.length), LEFT_SHORT)) return 'one-sided';
  return differ(evidence, NO_STOP) || evidence.between.value <= 0 ? 'not-repeatable' : undefined;
}
