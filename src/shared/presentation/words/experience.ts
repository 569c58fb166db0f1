import { causes, type Shares } from '../../axle/experience/alike.ts';
import { figuresOfLesson, type Offset, type Ratio } from '../../axle/experience/figures.ts';
import type { Lesson } from '../../axle/experience/lesson.ts';
import type { Result } from '../../basics/result.ts';
import { listed } from '../../basics/listed.ts';
import { show, showText, type UnitSystem } from '../../basics/show.ts';

const ends = ({ middle, factor }: Ratio): readonly [number, number] => [middle / factor, middle * factor];

/** "0.008 mm, mostly 0.005 to 0.013": two of three lie between the ends. */
export function filmWords(film_um: Ratio, units: UnitSystem): string {
  const digits = (um: number): string => show(um / 1000, 'length', units, fine(units)).digits;
  const [low, high] = ends(film_um);
  return `${filmText(film_um, units)}, mostly ${digits(low)} to ${digits(high)}`;
}

/** Films are told to a thousandth of a millimetre or a ten-thousandth of an inch. */
const fine = (units: UnitSystem): number => (units === 'metric' ? 0.001 : 0.00254);
const filmText = ({ middle }: Ratio, units: UnitSystem): string =>
  showText(middle / 1000, 'length', units, fine(units));

/** "1.1 times the usual, mostly 0.9 to 1.4". */
export function reliefWords(relief: Ratio): string {
  const [low, high] = ends(relief).map((value) => value.toFixed(1));
  return `${relief.middle.toFixed(1)} times the usual, mostly ${low} to ${high}`;
}

/**
 * "0.82 mm ±0.10" at the heel along the rotation.
 * @param rate what the mesh model computes (mm per mm).
 */
export const backlashWords = ({ middle, spread }: Offset, rate: number): string =>
  `${(rate + middle).toFixed(2)} mm ±${spread.toFixed(2)}`;

const causeWords = { hand: 'film', relief: 'relief', backlash: 'backlash' } as const;

/** "counts for film and relief". */
export function teachesWords(shares: Shares): string {
  const those = causes.filter((cause) => shares[cause]).map((cause) => causeWords[cause]);
  return `counts for ${listed(those)}`;
}

/** What one build showed by itself, or why it teaches nothing. */
export function taughtWords(
  lesson: Result<Lesson> | undefined,
  shares: Shares,
  { units, rate }: { readonly units: UnitSystem; readonly rate: number | undefined },
): string {
  if (lesson === undefined) return 'Being worked out.';
  if (!lesson.ok) return `${lesson.problem.sentence} It teaches nothing.`;
  const { film_um, relief, perRingAway } = figuresOfLesson(lesson.value);
  const backlash = shares.backlash && rate !== undefined;
  return `By itself: ${[
    ...(shares.hand ? [`film about ${filmText(film_um, units)}`] : []),
    ...(shares.relief ? [`relief ${relief.middle.toFixed(1)} times the usual`] : []),
    ...(backlash ? [`${backlashWords(perRingAway, rate)} of backlash for each mm`] : []),
  ].join(', ')}`;
}
