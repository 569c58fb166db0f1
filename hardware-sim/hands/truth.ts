import type { Doing, Moment } from './motion.ts';
import type { StationSetup } from './rocking.ts';
import type { Spoil } from './spoil.ts';

/** What is true of one station, and where in the session it was rocked. */
export interface StationTruth {
  /** Movement of the stem from rest to rest, mean over the rocks: the gear's backlash and the give under the hands. This is what is measured. */
  readonly truth_mm: number;
  /** The same as the gauge's own works show it, without noise and rounding: hysteresis and scale error counted. */
  readonly asGauged_mm: number;
  /** The gears' own clearance, no hand on them. */
  readonly clearance_mm: number;
  /** Whole rocks made, each with two rests of its own. */
  readonly rocks: number;
  readonly from_s: number;
  readonly until_s: number;
  readonly spoil?: Spoil;
}

/** A station to be rocked, and what goes wrong there, if anything does. */
export interface Planned {
  readonly setup: StationSetup;
  readonly spoil?: Spoil;
}

const isRest = (moment: Moment): boolean => moment.doing === 'rest-low' || moment.doing === 'rest-high';

interface Sums {
  readonly low: number;
  readonly high: number;
  readonly lows: number;
  readonly highs: number;
}

const added = (sums: Sums, doing: Doing, value: number): Sums =>
  doing === 'rest-low'
    ? { ...sums, low: sums.low + value, lows: sums.lows + 1 }
    : { ...sums, high: sums.high + value, highs: sums.highs + 1 };

/** Mean over whole rocks of the difference of the two rests. */
function spanOf(rests: readonly { readonly moment: Moment; readonly value: number }[]): number {
  const rocks = new Map<number, Sums>();
  for (const { moment, value } of rests) {
    if (moment.rock === undefined) continue;
    const sums = rocks.get(moment.rock) ?? { low: 0, high: 0, lows: 0, highs: 0 };
    rocks.set(moment.rock, added(sums, moment.doing, value));
  }
  const spans = [...rocks.values()].map((sums) => sums.high / sums.highs - sums.low / sums.lows);
  return spans.reduce((sum, span) => sum + span, 0) / spans.length;
}

/** What was true of a station: from the same moments that the gauge saw, through the gauge's works without its noise. */
export function truthOf(
  station: number,
  planned: Planned,
  seen: readonly Moment[],
  gauged: readonly number[],
): StationTruth {
  const own = seen.flatMap((moment, index) =>
    moment.station === station ? [{ moment, value: gauged[index] ?? 0 }] : [],
  );
  const rests = own.filter(({ moment }) => isRest(moment));
  return {
    truth_mm: spanOf(rests.map(({ moment }) => ({ moment, value: moment.value }))),
    asGauged_mm: Math.abs(spanOf(rests)),
    clearance_mm: planned.setup.backlash_mm,
    rocks: planned.setup.rocks,
    from_s: own[0]?.moment.t_s ?? 0,
    until_s: own.at(-1)?.moment.t_s ?? 0,
    ...(planned.spoil === undefined ? {} : { spoil: planned.spoil }),
  };
}
