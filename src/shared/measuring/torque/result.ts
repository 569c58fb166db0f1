import { newtonMetres, type Torque } from '../../basics/quantity.ts';
import { none, type OrNone } from '../../basics/result.ts';
import { fitLine } from '../../basics/leastSquares.ts';
import { mean } from '../../basics/statistics.ts';
import { combine, type UncertaintyPart } from '../uncertainty/uncertainty.ts';
import type { TorqueCapture } from './state.ts';
import { partsOf, startParts } from './doubt.ts';
import { isHeld, type PullKnown, pullsKnown, type Start, startsKnown } from './pulls.ts';
import { runningOf, type Running } from './running.ts';
import { flagsOf, type TorqueFlag } from './flags.ts';

export type NoTorque =
  | 'nothing-measured'
  | 'too-short'
  | 'start-not-seen'
  /** What the gauge showed never fell: it holds its highest value, or has come to the end of its range. */
  | 'held'
  /** No pull: the gauge lay still, or nothing shows that what it read turned anything. */
  | 'not-turned';

export interface TorqueMeasured {
  readonly running: OrNone<Torque, NoTorque>;
  /** Largest torque before the shaft turned. */
  readonly breakaway: OrNone<Torque, NoTorque>;
  /** Expanded uncertainty of breakaway; `U95` below is that of running torque. */
  readonly breakawayU95: Torque;
  readonly breakawayParts: readonly UncertaintyPart[];
  readonly ripple: OrNone<Torque, NoTorque>;
  /** Change from the first to the last of what was averaged, by a straight line: bearings that seat. */
  readonly drift: OrNone<Torque, NoTorque>;
  /**
   * Over whole turns, known by angle, by marks or by a period that proved itself; from part of a turn; else over the time of
   * turning, which was a turn and more as far as can be told.
   */
  readonly average: 'whole-turns' | 'part-turn' | 'time';
  /** Whole turns (or periods) in the mean; 0 for any other average. */
  readonly turns: number;
  /** What the gauge read at rest, and what was taken off every reading for it. */
  readonly zero: OrNone<Torque, NoTorque>;
  readonly u: Torque;
  readonly U95: Torque;
  readonly parts: readonly UncertaintyPart[];
  readonly flags: readonly TorqueFlag[];
}

/** Works out the torque of the readings so far; the capture may take more after that. */
export function finishTorque(capture: TorqueCapture): TorqueMeasured {
  const { resolution } = capture.settings;
  const known = pullsKnown(capture);
  const pulls = known.filter((pull) => !isHeld(pull, resolution));
  const running = runningOf(pulls, resolution);
  if (running === undefined) return nothing(known.length > 0 ? 'held' : reasonOf(capture));
  const ripple = Math.max(...pulls.map(({ pull }) => pull.ripple));
  const parts = partsOf(capture.settings, pulls, running);
  const { u, U95 } = combine(parts);
  const start = hardestStart(capture, pulls);
  const ofStart = start === undefined ? [] : startParts(capture.settings, start);
  return {
    running: newtonMetres(running.mean),
    breakaway: start === undefined ? none('start-not-seen') : newtonMetres(start.peak),
    breakawayU95: newtonMetres(combine(ofStart).U95),
    breakawayParts: ofStart,
    ripple: newtonMetres(ripple),
    drift: driftOf(running),
    average: running.average,
    turns: running.average === 'whole-turns' ? running.means.length : 0,
    zero: zeroTold(pulls),
    u: newtonMetres(u),
    U95: newtonMetres(U95),
    parts,
    flags: flagsOf(capture, { known, pulls, running, ripple, startSeen: start !== undefined, parts }),
  };
}

/** The first start after standing is the hardest, so the largest counts. */
const hardestStart = (capture: TorqueCapture, pulls: readonly PullKnown[]): Start | undefined =>
  startsKnown(capture, pulls).toSorted((a, b) => b.peak - a.peak)[0];

function zeroTold(pulls: readonly PullKnown[]): TorqueMeasured['zero'] {
  const zeros = pulls.flatMap(({ zero }) => (zero === undefined ? [] : [zero.zero]));
  return zeros.length === 0 ? none('start-not-seen') : newtonMetres(mean(zeros));
}

function driftOf({ means }: Running): OrNone<Torque, NoTorque> {
  if (means.length < 3) return none('too-short');
  const slope = fitLine([...means.keys()], means)?.coefficients[1] ?? 0;
  return newtonMetres(slope * (means.length - 1));
}

function nothing(reason: NoTorque): TorqueMeasured {
  return {
    running: none(reason),
    breakaway: none(reason),
    breakawayU95: newtonMetres(0),
    breakawayParts: [],
    ripple: none(reason),
    drift: none(reason),
    average: 'time',
    turns: 0,
    zero: none(reason),
    u: newtonMetres(0),
    U95: newtonMetres(0),
    parts: [],
    flags: reason === 'held' ? ['held'] : [],
  };
}

/** A pull that was not counted shows nothing that turned; one that came to nothing was too short. */
function reasonOf({ readings, pull, pulls, ended }: TorqueCapture): NoTorque {
  if (readings === 0) return 'nothing-measured';
  const under = pull !== undefined && pull.before === undefined;
  return pulls.length > 0 || under || ended + (pull === undefined ? 0 : 1) === 0 ? 'not-turned' : 'too-short';
}
