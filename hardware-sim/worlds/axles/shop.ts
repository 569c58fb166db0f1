import type { Random } from '../../seeded.ts';
import { type Chances, chancesIn, names, ofFlank } from './axle.ts';

/** How much of what the axles of one shop differ in they have in common: 0 nothing, 1 all. */
export interface Alike {
  /** Film, of whoever brushes it on. */
  readonly hand: number;
  /** Sizes and bias of the marks, of whoever cut the gears. */
  readonly relief: number;
  /** What a millimetre makes of backlash, of the axle. */
  readonly backlash: number;
}

type OfAxle = (typeof names)[number];

/** What follows the hand, the cutting and the axle; the rest (where it stands, how well it was cut) is chance each time. */
const following: Readonly<Partial<Record<OfAxle, keyof Alike>>> = {
  film: 'hand',
  long: 'relief',
  tall: 'relief',
  relief: 'relief',
  ringShare: 'backlash',
  pinionShare: 'backlash',
};
const flanksAlike: ReadonlySet<(typeof ofFlank)[number]> = new Set(['a', 'c', 'bias'] as const);

const causeAt = (index: number): keyof Alike | undefined => {
  const name = names[index];
  if (name !== undefined) return following[name];
  const flank = ofFlank[(index - names.length) % ofFlank.length];
  const onFlank = index < names.length + 2 * ofFlank.length;
  return onFlank && flank !== undefined && flanksAlike.has(flank) ? 'relief' : undefined;
};

export const drawChances = (random: Random): Chances =>
  Float64Array.from({ length: chancesIn }, () => random.normal(0, 1));

/** One more axle of a kind: each chance partly the kind's and partly its own, as far apart altogether as ever. */
export const oneMore = (random: Random, kind: Chances, alike: Alike): Chances =>
  ofKind(kind, alike)(drawChances(random));

/** What chances of its own alone make of an axle of a kind. */
export const ofKind =
  (kind: Chances, alike: Alike) =>
  (own: Chances): Chances =>
    own.map((chance, index) => {
      const cause = causeAt(index);
      const share = cause === undefined ? 0 : alike[cause];
      return Math.sqrt(share) * (kind[index] ?? 0) + Math.sqrt(1 - share) * chance;
    });
