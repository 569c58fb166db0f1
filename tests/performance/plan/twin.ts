import { NoSuchGear } from '../../../hardware-sim/axle/mesh/solve.ts';
import { drawStand, type Population, type Stand } from './stand.ts';
import type { Subject } from './subject.ts';

/** Populations of the twin, whose marks come from a contact calculation of its own. */
export const twins: Readonly<Record<string, { readonly population: Population; readonly first: number }>> = {
  'twin, relief on its own': { population: { cutting: [0.03, 0.06], relieved: 'on-its-own' }, first: 1000 },
  'twin, relief to the mark': { population: { cutting: [0.03, 0.06], relieved: 'to-the-mark' }, first: 5000 },
};

/** Sets of the twin that no position puts right. */
export const spoilt: { readonly population: Population; readonly first: number } = {
  population: { cutting: [0.15, 0.3], relieved: 'on-its-own' },
  first: 9000,
};

/** An axle of the twin that can (or cannot) be made right; each call stands there anew with the same chance in its readings. */
export function twinSubject(seed: number, population: Population, good: boolean): (() => Subject) | undefined {
  if (standOrNone(seed, population)?.canBeRight() !== good) return undefined;
  return () => subjectOf(drawStand(seed, population));
}

/** Some draws cannot be cut at all, because the pinion would be undercut; they are passed over. */
function standOrNone(seed: number, population: Population): Stand | undefined {
  try {
    return drawStand(seed, population);
  } catch (reason) {
    if (reason instanceof NoSuchGear) return undefined;
    throw reason;
  }
}

const subjectOf = (stand: Stand): Subject => ({
  ask: (trials) => stand.ask(trials),
  tryAt: ({ pinionOut, ringAway }) => stand.tryAt(pinionOut, ringAway),
  rightAt: ({ pinionOut, ringAway }) => stand.rightAt(pinionOut, ringAway),
  truthAt: ({ pinionOut, ringAway }) => stand.truthAt(pinionOut, ringAway),
});
