/** How a number went from line to line while the spindle was moved. */
export type Movement =
  /** It stood, or moved by no more than a display flickers or a temperature creeps. */
  | 'still'
  /** By the same step nearly every time: a counter, a clock. */
  | 'counts'
  /** It only rose, or only fell: a clock with an uneven beat does that, and so does a spindle pushed one way. */
  | 'one-way'
  | 'moves';

/** A spindle moved on purpose goes at least so many steps of its display. */
const fewestSteps = 20;
/** Numbers with an exponent do not say how fine their step is; then so many different ones are asked for. */
const fewestValues = 5;
/** A clock that passes the full minute falls once; what is moved there and back goes this share of its steps each way. */
const shareBack = 0.1;

/** @param step of the display; undefined where the number does not tell it. */
export function movementOf(values: readonly number[], step: number | undefined): Movement {
  const steps = stepsOf(values, 1);
  if (counts(steps)) return 'counts';
  if (!hasMoved(values, step)) return 'still';
  const up = steps.filter((each) => each > 0).length;
  const down = steps.filter((each) => each < 0).length;
  return Math.min(up, down) >= Math.max(1, shareBack * (up + down)) ? 'moves' : 'one-way';
}

function hasMoved(values: readonly number[], step: number | undefined): boolean {
  if (step === undefined) return new Set(values).size >= fewestValues;
  // Half a step less: 0.020 is twenty steps, whatever the binary makes of it.
  return Math.max(...values) - Math.min(...values) >= (fewestSteps - 0.5) * step;
}

const stepsOf = (values: readonly number[], apart: number): number[] =>
  values.slice(apart).map((value, i) => value - (values[i] ?? 0));

function counts(steps: readonly number[]): boolean {
  const first = steps.find((step) => step > 0) ?? 0;
  const regular = steps.filter((step) => Math.abs(step - first) < 1e-9).length;
  return first > 0 && steps.length >= 3 && regular >= steps.length - 1;
}

const bendsToTell = 8;
const mostAxes = 4;
const clearly = 3;

/**
 * Two to four numbers sent in turn: taken line after line their course is jagged, taken every second (third, fourth) line it is
 * smooth. One spindle moved by hand does the reverse. How jagged a course is, its second differences say.
 * @param step of the display: bends no larger are its flicker.
 */
export function takesTurns(values: readonly number[], step = 0): boolean {
  const jagged = meanSize(bendsOf(values, 1));
  if (jagged <= step) return false;
  for (let axes = 2; axes <= mostAxes; axes += 1) {
    const bends = bendsOf(values, axes);
    if (bends.length >= bendsToTell && jagged > clearly * meanSize(bends)) return true;
  }
  return false;
}

const bendsOf = (values: readonly number[], apart: number): number[] => stepsOf(stepsOf(values, apart), apart);

const meanSize = (steps: readonly number[]): number =>
  steps.reduce((sum, step) => sum + Math.abs(step), 0) / Math.max(1, steps.length);
