/** What comes of moving a gauge by an amount that is known: by a feeler, a block, a weight on an arm. */
export type KnownAmount =
  | { readonly is: 'agrees'; readonly off_percent: number }
  /** It counts the other way round. */
  | { readonly is: 'turned' }
  /** It reads inches where millimetres are believed, or the reverse. */
  | { readonly is: 'other-unit'; readonly reads: 'inches' | 'millimetres' }
  /** Its number is so many times too large (10, 100, 1000) or too small (0.1 …). */
  | { readonly is: 'scale'; readonly times: number }
  | { readonly is: 'differs'; readonly times: number }
  | { readonly is: 'too-small' };

/** A block is laid on by hand: nobody places it better than this, and every error looked for is far larger. */
const near = 0.1;
/** Steps of the gauge that a movement must have, or the ratio says nothing. */
const fewestSteps = 20;
const scales = [1000, 100, 10, 0.1, 0.01, 0.001];

/**
 * Compares what a gauge showed with what it was moved by, both in the same unit.
 * @param step its resolution in that unit.
 */
export function againstKnown(shown: number, known: number, step: number): KnownAmount {
  if (Math.abs(known) < fewestSteps * step || known === 0) return { is: 'too-small' };
  const times = shown / known;
  if (isNear(times, 1)) return { is: 'agrees', off_percent: (times - 1) * 100 };
  if (isNear(times, -1)) return { is: 'turned' };
  const size = Math.abs(times);
  if (isNear(size, 1 / 25.4)) return { is: 'other-unit', reads: 'inches' };
  if (isNear(size, 25.4)) return { is: 'other-unit', reads: 'millimetres' };
  const scale = scales.find((each) => isNear(size, each));
  return scale === undefined ? { is: 'differs', times } : { is: 'scale', times: scale };
}

const isNear = (times: number, wanted: number): boolean => Math.abs(times / wanted - 1) <= near;
