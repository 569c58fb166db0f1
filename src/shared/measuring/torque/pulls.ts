import { mean } from '../../basics/statistics.ts';
import { pullNow, withRestAfter } from './letGo.ts';
import type { TorqueCapture } from './state.ts';
import { correctionOf, type PullSummary, zeroUnder } from './pull.ts';
import type { Top } from './breakaway.ts';
import { restSeen, type Zero, zeroOf } from './restWatch.ts';
import { flickers_steps } from './unfallen.ts';

/** A pull with all that is known about its zero. */
export interface PullKnown {
  readonly pull: PullSummary;
  readonly zero: Zero | undefined;
  /** What is to be added to its torques, once the rest after it is known as well. */
  readonly correction: number;
  /** Means of its whole turns, corrected. */
  readonly turns: readonly number[];
}

/** A start that was seen, from the zero of its pull. */
export interface Start extends Top {
  readonly zero: Zero | undefined;
}

/** The starts that were seen: of pulls that turned, and of strokes beside them that were over too soon to say what it runs at. */
export function startsKnown({ strokes, settings }: TorqueCapture, pulls: readonly PullKnown[]): readonly Start[] {
  const ofPulls = pulls.flatMap(({ pull: { top }, zero, correction }) => startOf(top, zero, correction));
  const ofStrokes = strokes.flatMap(({ top, before }) =>
    startOf(top, zeroOf(before, undefined, settings.resolution), 0),
  );
  return pulls.length === 0 ? [] : [...ofPulls, ...ofStrokes];
}

const startOf = (top: Top | undefined, zero: Zero | undefined, correction: number): readonly Start[] =>
  top === undefined ? [] : [{ ...top, peak: top.peak + correction, zero }];

/** The pulls so far that turned the shaft, the one at hand among them. */
export function pullsKnown(capture: TorqueCapture): readonly PullKnown[] {
  const { pulls, rest, pull, turns, settings } = capture;
  const now = pullNow(capture);
  const over = pull === undefined && rest !== undefined ? withRestAfter(pulls, restSeen(rest)) : pulls;
  const known = [...over, ...(now === undefined ? [] : [now])].map((one) => {
    const zero = zeroUnder(one, settings.resolution);
    const correction = correctionOf(one, zero);
    const own = turns.means.filter((turn) => turn.pull === one.nth);
    return { pull: one, zero, correction, turns: own.map((turn) => turn.mean + correction) };
  });
  const turned = known.filter((one) => hasTurned(one, settings.resolution));
  const most = Math.max(...turned.map(levelOf));
  return turned.filter((one) => levelOf(one) > 0 && levelOf(one) >= touch * most);
}

/**
 * A pull whose readings never fell from its start on, on a gauge fine enough to show that a shaft turns: what it showed is what
 * it held, or the end of its range, and not the torque. Where its start was not seen that is only said beside the number.
 */
export const isHeld = (known: PullKnown, resolution: number): boolean =>
  known.pull.unfallen && known.pull.before !== undefined && levelOf(known) >= flickers_steps * resolution;

const levelOf = ({ pull, correction }: PullKnown): number => mean(pull.steady) + correction;

/** A pull that ran at less than this share of the hardest one was a touch. */
const touch = 0.3;

/**
 * Whether anything shows that the shaft turned: the torque came from a rest, or went back to one and stayed there, the angle
 * moved, or what was read swings and repeats itself as a turn does. A gauge that hangs off zero and reads on does none of it,
 * and one that is bumped comes back at once.
 */
const hasTurned = ({ pull }: PullKnown, resolution: number): boolean =>
  pull.before !== undefined ||
  pull.travel.length > 0 ||
  (pull.after !== undefined && (pull.moved || pull.after.seconds > bump_s)) ||
  (pull.periods.length > 0 && pull.ripple > swings * resolution);

/** A bump is over by then, s. */
const bump_s = 0.5;
/** Steps by which a display may flicker. */
const swings = 6;
