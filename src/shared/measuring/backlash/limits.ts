/** A stroke smaller than this many standard deviations of one reading is not told from noise. */
const OF_NOISE = 3;
/** A stroke of fewer steps of the display has no digits to be measured with. */
const OF_STEPS = 2;

export const leastStroke = (noise: number, resolution: number): number =>
  Math.max(OF_NOISE * noise, OF_STEPS * resolution);

/** A stroke so small beside the noise that a gauge which wanders may have made it, with nobody rocking. */
export const isWeak = (size: number, noise: number): boolean => size < WEAK * noise;

const WEAK = 8;

/** A length beyond this many steps of the display (5 m at 0.0005 mm) is no reading of an indicator. */
export const MOST_STEPS = 1e7;
