import { newtonMetres, type Torque } from '../../basics/quantity.ts';
import { none, type OrNone } from '../../basics/result.ts';
import { fitLine } from '../../basics/leastSquares.ts';
import { mean, sd } from '../../basics/statistics.ts';
import { breakawayNow, pullNow, type TorqueCapture } from './torqueCapture.ts';
import type { PullSummary } from './torquePull.ts';
import { combine, rectangular, repeatability, resolutionOf, type UncertaintyPart } from '../uncertainty/uncertainty.ts';

export type TorqueFlag =
  /** The gauge was never seen at rest before a pull, so breakaway is not known. */
  | 'start-not-seen'
  /** Running torque still changed from turn to turn by more than it scattered: turn on until it settles. */
  | 'seating'
  /** Largest minus smallest is more than half the mean: a notch, a bent shaft, or a jerky pull. */
  | 'not-steady'
  /** Fewer than twenty steps of the display: this gauge is too coarse for this torque. */
  | 'coarse'
  /** Single wild readings were left out. */
  | 'spike';

export type NoTorque = 'nothing-measured' | 'too-short' | 'start-not-seen';

export interface TorqueMeasured {
  readonly running: OrNone<Torque, NoTorque>;
  /** Largest torque before the shaft turned. */
  readonly breakaway: OrNone<Torque, NoTorque>;
  /** Expanded uncertainty of breakaway; `U95` below is that of running torque. */
  readonly breakawayU95: Torque;
  readonly ripple: OrNone<Torque, NoTorque>;
  /** Change from the first to the last of what was averaged, by a straight line: bearings that seat. */
  readonly drift: OrNone<Torque, NoTorque>;
  /** Over whole turns, known by angle, by marks or by a period that proved itself; else over the time of turning. */
  readonly average: 'whole-turns' | 'time';
  /** Whole turns (or periods) in the mean; 0 for a time average. */
  readonly turns: number;
  readonly u: Torque;
  readonly U95: Torque;
  readonly parts: readonly UncertaintyPart[];
  readonly flags: readonly TorqueFlag[];
}

/** Works out the torque of the readings so far; the capture may take more after that. */
export function finishTorque(capture: TorqueCapture): TorqueMeasured {
  const now = pullNow(capture);
  const pulls = now === undefined ? capture.pulls : [...capture.pulls, now];
  const stretches = stretchesOf(capture, pulls);
  if (stretches === undefined) return nothing(capture);
  const running = mean(stretches.means);
  const ripple = Math.max(0, ...pulls.map((pull) => pull.ripple));
  const parts = partsOf(capture, stretches, running, ripple);
  const { u, U95 } = combine(parts);
  const start = breakawayNow(capture);
  return {
    running: newtonMetres(running),
    breakaway: start === undefined ? none('start-not-seen') : newtonMetres(start.peak),
    breakawayU95: newtonMetres(start === undefined ? 0 : combine(startParts(capture, start)).U95),
    ripple: pulls.length === 0 ? none('too-short') : newtonMetres(ripple),
    drift: driftOf(stretches.means),
    average: stretches.turns > 0 ? 'whole-turns' : 'time',
    turns: stretches.turns,
    u: newtonMetres(u),
    U95: newtonMetres(U95),
    parts,
    flags: flagsOf(capture, stretches, { running, ripple, startSeen: start !== undefined }),
  };
}

interface Stretches {
  readonly means: readonly number[];
  /** How many of them are whole turns: all or none. */
  readonly turns: number;
}

/** Whole turns by angle or marks, else whole periods, else the time. */
function stretchesOf({ turns }: TorqueCapture, pulls: readonly PullSummary[]): Stretches | undefined {
  if (turns.means.length > 0) return { means: turns.means, turns: turns.means.length };
  if (pulls.length === 0) return undefined;
  const periodic = pulls.filter(({ periods }) => periods > 0);
  if (periodic.length > 0) {
    const means = periodic.flatMap(({ stretches }) => stretches);
    return { means, turns: means.length };
  }
  return { means: pulls.flatMap(({ stretches }) => stretches), turns: 0 };
}

function partsOf(
  capture: TorqueCapture,
  { means, turns }: Stretches,
  running: number,
  ripple: number,
): readonly UncertaintyPart[] {
  return [
    ...toolParts(capture, running),
    ...scatter(means, turns),
    ...(turns > 0 ? [] : [{ name: 'part of a turn', u: rectangular(ripple / (2 * Math.PI)) }]),
  ];
}

/** The top of the peak may fall between two readings, the more so the steeper it rose. */
const startParts = (capture: TorqueCapture, { peak, rise }: { readonly peak: number; readonly rise: number }) => [
  ...toolParts(capture, peak),
  { name: 'top between two readings', u: rectangular(rise) },
];

function toolParts({ settings }: TorqueCapture, torque: number): readonly UncertaintyPart[] {
  const { resolution, gaugeU, gaugeU_share, armU_share } = settings;
  return [
    { name: 'resolution', u: resolutionOf(resolution) },
    ...(gaugeU === undefined ? [] : [{ name: 'gauge', u: gaugeU }]),
    ...(gaugeU_share === undefined ? [] : [{ name: 'torque tool class', u: gaugeU_share * torque }]),
    ...(armU_share === undefined ? [] : [{ name: 'arm', u: armU_share * torque }]),
  ];
}

/** Turn to turn, or stretch to stretch of the time. A single turn has no scatter of its own to show. */
const scatter = (means: readonly number[], turns: number): readonly UncertaintyPart[] =>
  means.length < 2 ? [] : [repeatability(turns > 0 ? 'turn to turn' : 'unsteadiness', sd(means), means.length)];

function driftOf(means: readonly number[]): OrNone<Torque, NoTorque> {
  if (means.length < 3) return none('too-short');
  const slope = fitLine([...means.keys()], means)?.coefficients[1] ?? 0;
  return newtonMetres(slope * (means.length - 1));
}

function flagsOf(
  { settings, spikes }: TorqueCapture,
  { means, turns }: Stretches,
  found: { readonly running: number; readonly ripple: number; readonly startSeen: boolean },
): readonly TorqueFlag[] {
  return [
    ...(found.startSeen ? [] : (['start-not-seen'] as const)),
    ...(turns >= 3 && stillSeating(means, settings.resolution) ? (['seating'] as const) : []),
    ...(found.ripple > found.running / 2 ? (['not-steady'] as const) : []),
    ...(found.running < 20 * settings.resolution ? (['coarse'] as const) : []),
    ...(spikes > 0 ? (['spike'] as const) : []),
  ];
}

function stillSeating(means: readonly number[], resolution: number): boolean {
  const fit = fitLine([...means.keys()], means);
  const change = Math.abs(fit?.coefficients[1] ?? 0) * (means.length - 1);
  return change > Math.max(2 * resolution, 0.05 * mean(means)) && change > 4 * (fit?.sd ?? 0);
}

function nothing({ pull, ended }: TorqueCapture): TorqueMeasured {
  const reason = pull === undefined && ended === 0 ? 'nothing-measured' : 'too-short';
  return {
    running: none(reason),
    breakaway: none(reason),
    breakawayU95: newtonMetres(0),
    ripple: none(reason),
    drift: none(reason),
    average: 'time',
    turns: 0,
    u: newtonMetres(0),
    U95: newtonMetres(0),
    parts: [],
    flags: [],
  };
}
