import type { MakeUp } from '../../../src/shared/axle/makeUp.ts';
import type { Deed, Entry, Notebook } from '../../../src/shared/job/records/notebook.ts';
import { limitsSet, trial } from './scenario.ts';
import { backlashOf, lowAndToe, markOf, packs, right, shimsOf, withMakeUp } from './trials.ts';

interface Finished {
  readonly technician?: string;
  readonly compound?: string;
  readonly makeUp?: Partial<MakeUp>;
  /** Months after January 2026. */
  readonly month?: number;
}

/** Two trials of an invented axle, the second one accepted: what a build shows before its certificate. */
export const twoTrials = ({ compound, makeUp = {} }: Finished = {}): readonly Deed[] => {
  const painted = compound === undefined ? {} : { compound };
  return [
    withMakeUp(makeUp),
    limitsSet,
    trial,
    shimsOf('e3', packs(1.1, 3, 3)),
    backlashOf('e3', 0.2),
    markOf('e3', { ...lowAndToe, ...painted }),
    trial,
    shimsOf('e7', packs(0.95, 3.05, 2.95)),
    backlashOf('e7', 0.2),
    markOf('e7', { ...right, judgement: 'accepted', ...painted }),
  ];
};

export const certified: Deed = { kind: 'certified', sha256: 'a'.repeat(64), complete: true };

/** A notebook of its own, with ids that count up from e0. */
export function notebookOf(id: string, about: Finished, ...deeds: readonly Deed[]): Notebook {
  const by = about.technician ?? 'A. Tester';
  const start: Deed = { kind: 'started', title: `Build ${id}`, technician: by };
  const entries = [start, ...deeds].map((deed, n): Entry => ({
    id: `e${n}`,
    version: 1,
    at: new Date(Date.UTC(2026, about.month ?? 0, 5, 8, n)).toISOString(),
    by,
    deed,
  }));
  return { id, entries };
}

/** A finished build that teaches. */
export const finished = (id: string, about: Finished = {}): Notebook =>
  notebookOf(id, about, ...twoTrials(about), certified);
