import { compareMarks, drawnByHand } from '../mark/compare.ts';
import { type EdgeContact, type Edge, edgeNames, type Mark } from '../mark/mark.ts';

/** A mark as the plan weighs it: one flank, one or several places round the gear. */
export type SeenMark = Mark & {
  /** Read at several places that differ by more than their reading can: largest less smallest, fractions of the flank. */
  readonly wanders?: { readonly heel: number; readonly crown: number };
};

/**
 * Several places of one flank as one mark: their mean, with what they scatter in its uncertainty. Places that differ by
 * more than two readings can be apart are said to wander: that is runout, dirt or a warped gear, and no matter for shims.
 * @param marks at least one.
 */
export function roundGear(marks: readonly [Mark, ...Mark[]]): SeenMark {
  const [first, ...others] = marks;
  if (others.length === 0) return first;
  const pairs = marks.flatMap((one, n) => marks.slice(n + 1).map((other) => compareMarks(one, other)));
  const wanders = pairs.some(({ heel, crown }) => heel.verdict === 'moved' || crown.verdict === 'moved');
  const { gearAngle_deg: _angle, ...rest } = first;
  return {
    ...rest,
    heel: meanOf(marks, ({ heel }) => heel),
    crown: meanOf(marks, ({ crown }) => crown),
    length: meanOf(marks, ({ length }) => length),
    height: meanOf(marks, ({ height }) => height),
    edges: edgesOf(marks),
    U95: { heel: doubtOf(marks, 'heel'), crown: doubtOf(marks, 'crown') },
    ...(wanders ? { wanders: { heel: rangeOf(marks, 'heel'), crown: rangeOf(marks, 'crown') } } : {}),
  };
}

const meanOf = (marks: readonly Mark[], of: (mark: Mark) => number): number =>
  marks.reduce((sum, mark) => sum + of(mark), 0) / marks.length;

function rangeOf(marks: readonly Mark[], along: 'heel' | 'crown'): number {
  const places = marks.map((mark) => mark[along]);
  return Math.max(...places) - Math.min(...places);
}

/** One eye reads all of them, so their own uncertainty stays; the mean's scatter comes on top (coverage factor 2). */
function doubtOf(marks: readonly Mark[], along: 'heel' | 'crown'): number {
  const middle = meanOf(marks, (mark) => mark[along]);
  const squares = marks.reduce((sum, mark) => sum + (mark[along] - middle) ** 2, 0);
  const scatter = Math.sqrt(squares / (marks.length - 1) / marks.length);
  return Math.hypot(
    meanOf(marks, ({ U95 }) => (U95 ?? drawnByHand)[along]),
    2 * scatter,
  );
}

const severity: readonly EdgeContact[] = ['clear', 'feathered', 'hard'];

/** Each edge as the middle one of the places meets it; of two, the worse. */
function edgesOf(marks: readonly Mark[]): Mark['edges'] {
  const middle = (edge: Edge): EdgeContact =>
    marks.map(({ edges }) => edges[edge]).toSorted((a, b) => severity.indexOf(a) - severity.indexOf(b))[
      marks.length >> 1
    ] ?? 'clear';
  const [toe, heel, crown, root] = edgeNames.map(middle);
  return { toe: toe ?? 'clear', heel: heel ?? 'clear', crown: crown ?? 'clear', root: root ?? 'clear' };
}
