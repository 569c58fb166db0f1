/** A stroke smaller than this many standard deviations of one reading is not told from noise. */
const OF_NOISE = 3;
/** A stroke of fewer steps of the display has no digits to be measured with. */
const OF_STEPS = 2;

/**
 * No set of gears runs with a backlash as small as this, mm (makers ask for 0.08 and more, from memory): what moves to and
 * fro by less is a stand that shakes under a compressor or a hoist, and its shaking would pass for rocks.
 */
export const SHAKES = 0.015;
/** Where a width is known, strokes of a 25th of it are looked at too: that is what a display shows that went over to inches. */
const IN_INCHES = 0.8 / 25.4;

/** @param known width rocked so far at this tooth or the one before, mm */
export const leastStroke = (noise: number, resolution: number, known = Infinity): number =>
  Math.max(OF_NOISE * noise, OF_STEPS * resolution, Math.min(SHAKES, IN_INCHES * known));

/** A stroke so small beside the noise that a gauge which wanders may have made it, with nobody rocking. */
export const isWeak = (size: number, noise: number): boolean => size < WEAK * noise;

const WEAK = 8;

/** A length beyond this many steps of the display (5 m at 0.0005 mm) is no reading of an indicator. */
export const MOST_STEPS = 1e7;
