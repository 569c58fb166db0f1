import type { Length } from '../../basics/quantity.ts';

/** "0.127 mm (0.0050 in)": a shim is bought and measured in either, so both stand in every sentence at the stand. */
const inBoth = (size: Length): string => {
  const positive = Math.abs(size);
  return `${positive.toFixed(3)} mm (${(positive / 25.4).toFixed(4)} in)`;
};

/** Below this a change is none: a thousandth of a millimetre is finer than any shim or micrometer at the stand. */
const nothing = 0.0005;

/** The movement of the pinion in words, because a sign on paper has put many gears together wrongly. */
export function pinionInWords(pinionOut: Length): string {
  if (Math.abs(pinionOut) < nothing) return 'The pinion stays where it is.';
  return pinionOut > 0
    ? `The pinion goes out by ${inBoth(pinionOut)}.`
    : `The pinion goes deeper by ${inBoth(pinionOut)}.`;
}

/** The movement of the ring gear in words. */
export function ringInWords(ringAway: Length): string {
  if (Math.abs(ringAway) < nothing) return 'The ring gear stays where it is.';
  return ringAway > 0
    ? `The ring gear goes away from the pinion by ${inBoth(ringAway)}.`
    : `The ring gear goes closer to the pinion by ${inBoth(ringAway)}.`;
}

/** A change of thickness in words: "gets 0.05 mm (0.0020 in) thicker". */
export function thicknessInWords(change: Length): string {
  if (Math.abs(change) < nothing) return 'stays as it is';
  return `gets ${inBoth(change)} ${change > 0 ? 'thicker' : 'thinner'}`;
}
