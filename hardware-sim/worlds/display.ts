/** A gauge that shows whole steps. */
export const shown = (value: number, step: number): number => {
  const steps = Math.round(value / step);
  // 0.001·37 is not 0.037 in binary; a display has no such digits.
  return Number((steps * step).toFixed(7));
};

/**
 * A spindle with play: it follows only once what it rides on has gone `width` the other way. Keeps where the spindle stands.
 */
export function withPlay(width: number): (value: number) => number {
  let spindle = Number.NaN;
  return (value) => {
    if (Number.isNaN(spindle)) spindle = value;
    spindle = Math.min(Math.max(spindle, value - width / 2), value + width / 2);
    return spindle;
  };
}
