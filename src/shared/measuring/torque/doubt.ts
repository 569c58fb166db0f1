import { mean, sd } from '../../basics/statistics.ts';
import {
  rectangular,
  repeatability,
  resolutionOfDifference,
  type UncertaintyPart,
} from '../uncertainty/uncertainty.ts';
import type { TorqueSettings } from './state.ts';
import { correlationFactor } from './correlated.ts';
import { seatingOf } from './flags.ts';
import type { PullSummary } from './pull.ts';
import type { PullKnown, Start } from './pulls.ts';
import type { Zero } from './restWatch.ts';
import type { Running } from './running.ts';
import { leastSquares } from '../../basics/leastSquares.ts';

/**
 * The parts of a running torque's uncertainty.
 *
 * - resolution: a reading less the zero, both rounded: δ/√6;
 * - gauge, torque tool class, arm: as stated;
 * - zero: what the rests scatter, and the way between that before and that after the pull;
 * - whole turns: turn to turn, or, of one or two turns, how unsteady the torque was beyond what repeats; over the time also
 *   that a hand goes faster where the shaft turns easily;
 * - else: what the part of a turn that was not seen may do.
 */
export function partsOf(
  settings: TorqueSettings,
  pulls: readonly PullKnown[],
  running: Running,
): readonly UncertaintyPart[] {
  return [
    ...toolParts(settings, running.mean),
    ...zeroParts(
      settings,
      pulls.map(({ zero }) => zero),
    ),
    ...(running.average === 'whole-turns' ? wholeParts(settings, pulls, running) : [partOfTurn(running)]),
    ...seatingParts(settings, running),
    ...(running.by === 'angle' ? [] : [unevenTurning(pulls)]),
  ];
}

/**
 * The top of the start may fall between two readings, the more so the steeper it rose: anywhere from what was read up to there.
 * Where two tops followed each other, the later well above, either may have been the start.
 */
export const startParts = (
  settings: TorqueSettings,
  { peak, above, below, zero }: Start,
): readonly UncertaintyPart[] => [
  ...toolParts(settings, peak),
  ...zeroParts(settings, [zero]),
  { name: 'top between two readings', u: rectangular(above) },
  ...(below === 0 ? [] : [{ name: 'earlier top', u: rectangular(below) }]),
];

function toolParts(settings: TorqueSettings, torque: number): readonly UncertaintyPart[] {
  const { resolution, gaugeU, gaugeU_share, armU_share } = settings;
  return [
    { name: 'resolution', u: resolutionOfDifference(resolution) },
    ...(gaugeU === undefined ? [] : [{ name: 'gauge', u: gaugeU }]),
    ...(gaugeU_share === undefined ? [] : [{ name: 'torque tool class', u: gaugeU_share * torque }]),
    ...(armU_share === undefined ? [] : [{ name: 'arm', u: armU_share * torque }]),
  ];
}

/** A gauge not seen at rest may be this many steps off zero (own assumption). */
const unseenSteps = 5;

/** The pulls of a session hang on one gauge, so that their zeros err together: the middle of them, not their mean's scatter. */
function zeroParts({ resolution }: TorqueSettings, zeros: readonly (Zero | undefined)[]): readonly UncertaintyPart[] {
  const us = zeros.map((zero) => zero?.u ?? rectangular(unseenSteps * resolution));
  return [{ name: 'zero', u: Math.sqrt(mean(us.map((u) => u ** 2))) }];
}

function wholeParts(
  { resolution }: TorqueSettings,
  pulls: readonly PullKnown[],
  running: Running,
): readonly UncertaintyPart[] {
  const { means } = running;
  const seating = seatingOf(running, resolution);
  if (seating !== undefined)
    return [{ name: 'turn to turn', u: seating.sd / Math.sqrt(means.length), nu: means.length - 2 }];
  if (means.length >= 3) return [repeatability('turn to turn', sd(means), means.length)];
  const scatter = means.length < 2 ? 0 : sd(means) / Math.sqrt(means.length);
  const within = pulls.map(({ pull }) => unsteadiness(pull, means.length)).toSorted((a, b) => b.u - a.u)[0];
  return within === undefined ? [] : [{ ...within, u: Math.max(scatter, within.u) }];
}

/** Between the mean of bearings that seat and what they have come to. */
function seatingParts({ resolution }: TorqueSettings, running: Running): readonly UncertaintyPart[] {
  const seating = seatingOf(running, resolution);
  return seating === undefined ? [] : [{ name: 'seating', u: rectangular(seating.off) }];
}

/** A mean over one or two turns, from what the torque does beyond waves of the turn: known as well as values that hang together let it be. */
function unsteadiness(pull: PullSummary, turns: number): UncertaintyPart {
  const values = pull.steady;
  const residuals = withoutWaves(values, placesOf(pull, turns));
  const variance = residuals.reduce((sum, residual) => sum + residual ** 2, 0) / Math.max(1, values.length - waves);
  const own = values.length / correlationFactor(residuals);
  return { name: 'unsteadiness', u: Math.sqrt(variance / own), nu: Math.max(1, Math.floor(own) - waves) };
}

const orders = [1, 2] as const;
const waves = 1 + 2 * orders.length;

/** In turns: by the angle, else as if the pull had been those turns at an even speed. */
function placesOf({ travel, steady, period }: PullSummary, turns: number): readonly number[] {
  if (travel.length > 0) return travel.map((rad) => rad / (2 * Math.PI));
  const each = period ?? steady.length / turns;
  return steady.map((_, index) => index / each);
}

function withoutWaves(values: readonly number[], places: readonly number[]): readonly number[] {
  const rows = places.map((place) => [
    1,
    ...orders.flatMap((order) => [Math.cos(2 * Math.PI * order * place), Math.sin(2 * Math.PI * order * place)]),
  ]);
  const middle = mean(values);
  return leastSquares(rows, values)?.residuals ?? values.map((value) => value - middle);
}

const partOfTurn = ({ u }: Running): UncertaintyPart => ({ name: 'part of a turn', u });

/**
 * A hand that lingers where the shaft turns hard pulls a mean over the time up: of a wave of amplitude A and a speed that
 * swings by the share e with it, A·e/2 at most and A·e/(2√2) at the root mean square (derived). Speeds swing by a third (own
 * assumption).
 */
const unevenTurning = (pulls: readonly PullKnown[]): UncertaintyPart => ({
  name: 'uneven turning',
  u: (Math.max(...pulls.map(({ pull }) => pull.ripple)) / 2) * (swing / (2 * Math.SQRT2)),
});
const swing = 0.33;
