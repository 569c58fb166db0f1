import { reaches, overdriven, untelling, type Untelling, untellingSentence } from '../mark/untelling.ts';
import type { PlanInput, Side } from './input.ts';

/** A mark that has to be painted again before anything is planned on it. */
export interface Repaint {
  readonly kind: Untelling;
  readonly side: Side;
  readonly sentence: string;
  /** How to paint next time (common practice). */
  readonly look: readonly string[];
}

/** The drive mark of the last trial, where it tells nothing of depth. */
export function repaintOf({ trials }: PlanInput): Repaint | undefined {
  const pattern = trials.at(-1)?.pattern;
  const kind = pattern && untelling(pattern.drive);
  if (pattern === undefined || kind === undefined) return undefined;
  return { kind, side: 'drive', sentence: untellingSentence(kind, pattern.drive), look: howTo[kind] };
}

/** What a mark that reaches both ends of the face still tells of height, it does not tell along the face. */
export function acrossTheFace({ trials }: PlanInput): Repaint | undefined {
  const mark = trials.at(-1)?.pattern.drive;
  if (mark === undefined || !reaches(mark, 'toe', 'heel')) return undefined;
  const kind = overdriven(mark) ? 'overdriven' : 'edge-to-edge';
  return { kind, side: 'drive', sentence: untellingSentence(kind, mark), look: howTo[kind] };
}

const howTo: Readonly<Record<Untelling, readonly string[]>> = {
  'edge-to-edge': [
    'Clean both gears and brush the compound on thinner, so that the metal shimmers through.',
    'Less drag, and no more than a turn or two each way.',
  ],
  overdriven: [
    'Clean both gears and brush the compound on thinner.',
    'Much less drag: a rag in the hand, no load, a turn or two each way.',
  ],
  dot: [
    'More drag: brake the ring gear with a rag so that the pinion has to pull, a turn or two each way.',
    'Brush the compound on a little thicker and evenly, over both flanks of six or eight teeth.',
  ],
  line: [
    'Look along the tooth for a burr, a nick or a sharp edge, and take it off.',
    'Compare the set numbers on pinion and ring gear.',
    'Then paint again with a thin even film and some drag.',
  ],
  unreadable: [
    'Clean both gears of oil and paint again, thin and even.',
    'Look at it with the light from one side, or take a sharp photograph square to the flank.',
  ],
};
