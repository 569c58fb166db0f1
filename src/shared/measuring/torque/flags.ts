import { fitLine } from '../../basics/leastSquares.ts';
import { mean } from '../../basics/statistics.ts';
import type { UncertaintyPart } from '../uncertainty/uncertainty.ts';
import type { TorqueCapture } from './state.ts';
import type { PullKnown } from './pulls.ts';
import type { Running } from './running.ts';

export type TorqueFlag =
  /** The gauge was never seen at rest before a pull, so breakaway is not known. */
  | 'start-not-seen'
  /** At rest the gauge read more than a step off zero; that was taken off every reading. */
  | 'zero-taken-off'
  /** The gauge read otherwise at rest before the pull than after it. */
  | 'zero-moved'
  /** The gauge was not seen at rest: what it reads there is not known and was not taken off. */
  | 'zero-not-seen'
  /** Less than a whole turn was seen, or may have been. */
  | 'part-turn'
  /** Running torque still changed from turn to turn by more than it scattered: turn on until it settles. */
  | 'seating'
  /** Largest minus smallest is more than half the mean: a notch, a bent shaft, or a jerky pull. */
  | 'not-steady'
  /** Fewer than twenty steps of the display: this gauge is too coarse for this torque. */
  | 'coarse'
  /** Of the one or two turns there were, neighbouring readings hang together so much that few of them are new: turn on. */
  | 'correlated-noise'
  /** Readings were missing for half a second and more while it was pulled. */
  | 'gap'
  /** Single wild readings were left out. */
  | 'spike'
  /** What was read in a pull never fell, or stood at its highest again and again: the gauge may hold its highest value or be at the end of its range. Where it surely did, the pull is left out. */
  | 'held';

interface Found {
  /** Every pull that turned, and those of them the number rests on. */
  readonly known: readonly PullKnown[];
  readonly pulls: readonly PullKnown[];
  readonly running: Running;
  readonly ripple: number;
  readonly startSeen: boolean;
  readonly parts: readonly UncertaintyPart[];
}

/** Chance from which it is said that less than a turn may have been seen. */
const maybePart = 0.25;

export function flagsOf(
  { settings, spikes, gaps }: TorqueCapture,
  { known, pulls, running, ripple, startSeen, parts }: Found,
): readonly TorqueFlag[] {
  const { resolution } = settings;
  const said: Readonly<Record<TorqueFlag, boolean>> = {
    'start-not-seen': !startSeen,
    'zero-taken-off': pulls.some(({ zero }) => zero !== undefined && Math.abs(zero.zero) > resolution),
    'zero-moved': pulls.some(({ zero }) => zero?.moved === true),
    'zero-not-seen': pulls.some(({ zero }) => zero === undefined),
    'part-turn': running.partly > maybePart,
    seating: seatingOf(running, resolution) !== undefined,
    'not-steady': ripple > running.mean / 2,
    coarse: running.mean < 20 * resolution,
    'correlated-noise': parts.some(({ name, nu }) => name === 'unsteadiness' && nu !== undefined && nu < fewNew),
    gap: gaps > 0,
    spike: spikes > 0,
    held: known.some(({ pull }) => pull.unfallen || pull.cutOff),
  };
  return flagNames.filter((flag) => said[flag]);
}

const flagNames: readonly TorqueFlag[] = [
  'start-not-seen',
  'zero-taken-off',
  'zero-moved',
  'zero-not-seen',
  'part-turn',
  'seating',
  'not-steady',
  'coarse',
  'correlated-noise',
  'gap',
  'spike',
  'held',
];

/** Fewer degrees of freedom than this are few. */
const fewNew = 5;

/** How bearings seat: how far the last of it lies from the mean, and what the turns scatter about the change. */
interface Seating {
  readonly off: number;
  readonly sd: number;
}

/**
 * Undefined while the turns scatter as much as they change; three turns at least tell. Of a mean over the time the change
 * that is no wave of the turn tells, where a turn and more was seen.
 */
export function seatingOf(
  { means, average, mean: middle, change, partly }: Running,
  resolution: number,
): Seating | undefined {
  const clear = Math.max(2 * resolution, 0.05 * middle);
  if (average === 'time')
    return partly < maybePart && Math.abs(change) > clear ? { off: Math.abs(change) / 2, sd: 0 } : undefined;
  if (average !== 'whole-turns' || means.length < 3) return undefined;
  const fit = fitLine([...means.keys()], means);
  const along = Math.abs(fit?.coefficients[1] ?? 0) * (means.length - 1);
  if (along <= clear || along <= 4 * (fit?.sd ?? 0)) return undefined;
  return { off: Math.max(along / 2, Math.abs(mean(means) - (means.at(-1) ?? 0))), sd: fit?.sd ?? 0 };
}
