import { listed } from '../../basics/listed.ts';
import type { Edge, Mark } from './mark.ts';

/** Why a mark tells nothing. */
export type Untelling = 'edge-to-edge' | 'overdriven' | 'dot' | 'line' | 'unreadable';

/** Smaller than this both ways (share of the flank) a mark is a dot; thinner than `line` one way, a line (own choice). */
const dot = 0.2;
const line = 0.12;
/** Expanded uncertainty of a height that places nothing: a third of the flank either way is more than any shim step. */
const unread = 0.2;

/** Whether and why a mark tells nothing of depth; nothing where it does. */
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
/** Whether it runs out at all of these edges. */
export const reaches = (mark: Mark, ...edges: readonly Edge[]): boolean => edges.every((edge) => cut(mark, edge));
/** Whether so much was wiped off that it is the drag which shows. */
export const overdriven = (mark: Mark): boolean =>
  Object.values(mark.edges).filter((edge) => edge === 'hard').length >= 2;

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

/** One sentence for why this mark tells nothing. */
export const untellingSentence = (kind: Untelling, mark: Mark): string => sentences[kind](mark);
