import type { Edge, Mark } from '../mark/mark.ts';
import type { PlanInput, Side } from './input.ts';
import { listed } from './words.ts';

/** Why a mark tells nothing. */
type Untelling = 'edge-to-edge' | 'overdriven' | 'dot' | 'line' | 'unreadable';

/** A mark that has to be painted again before anything is planned on it. */
export interface Repaint {
  readonly kind: Untelling;
  readonly side: Side;
  readonly sentence: string;
  /** How to paint next time (common practice). */
  readonly look: readonly string[];
}

/** Smaller than this both ways (share of the flank) a mark is a dot; thinner than `line` one way, a line (own choice). */
const dot = 0.2;
const line = 0.12;
/** Expanded uncertainty of a height that places nothing: a third of the flank either way is more than any shim step. */
const unread = 0.2;

/** The drive mark of the last trial, where it tells nothing of depth. */
export function repaintOf({ trials }: PlanInput): Repaint | undefined {
  const pattern = trials.at(-1)?.pattern;
  const kind = pattern && untelling(pattern.drive);
  if (pattern === undefined || kind === undefined) return undefined;
  return { kind, side: 'drive', sentence: sentences[kind](pattern.drive), look: howTo[kind] };
}

/** What a mark that reaches both ends of the face still tells of height, it does not tell along the face. */
export function acrossTheFace({ trials }: PlanInput): Repaint | undefined {
  const mark = trials.at(-1)?.pattern.drive;
  if (mark === undefined || !reaches(mark, 'toe', 'heel')) return undefined;
  const kind = overdriven(mark) ? 'overdriven' : 'edge-to-edge';
  return { kind, side: 'drive', sentence: sentences[kind](mark), look: howTo[kind] };
}

export function untelling(mark: Mark): Untelling | undefined {
  if (mark.U95 !== undefined && mark.U95.crown >= unread) return 'unreadable';
  if (reaches(mark, 'root', 'crown')) return overdriven(mark) ? 'overdriven' : 'edge-to-edge';
  const tall = cut(mark, 'root') || cut(mark, 'crown');
  const long = cut(mark, 'toe') || cut(mark, 'heel');
  if (mark.length < dot && mark.height < dot && !tall && !long) return 'dot';
  if ((mark.height < line && !tall) || (mark.length < line && !long)) return 'line';
  return undefined;
}

const cut = (mark: Mark, edge: Edge): boolean => mark.edges[edge] !== 'clear';
const reaches = (mark: Mark, ...edges: readonly Edge[]): boolean => edges.every((edge) => cut(mark, edge));
const overdriven = (mark: Mark): boolean => Object.values(mark.edges).filter((edge) => edge === 'hard').length >= 2;

const ends = (mark: Mark): string =>
  listed((['root', 'crown', 'toe', 'heel'] as const).filter((edge) => cut(mark, edge)));

const sentences: Readonly<Record<Untelling, (mark: Mark) => string>> = {
  'edge-to-edge': (mark) =>
    `The drive mark runs out at ${ends(mark)}: where it begins and ends cannot be seen, so it tells nothing of where it lies.`,
  overdriven: (mark) =>
    `The drive mark ends in hard lines at ${ends(mark)}: so much was wiped off that it tells nothing of where it lies.`,
  dot: ({ length, height }) =>
    `The drive mark is only a dot, ${hundred(length)} of the face and ${hundred(height)} of the height: the flanks hardly met, and it tells nothing of where they will.`,
  line: ({ length, height }) =>
    `The drive mark is only a thin line, ${hundred(length)} of the face and ${hundred(height)} of the height: that is an edge that rubs or gears that do not belong together, not a contact to set depth by.`,
  unreadable: ({ U95 }) =>
    `The drive mark’s height is read only to within ${hundred(U95?.crown ?? 1)} of the flank: any depth would fit it.`,
};

const hundred = (share: number): string => `${Math.round(share * 100)} of 100`;

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
