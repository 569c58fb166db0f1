import { none } from '../../basics/result.ts';
import { mm, seconds } from '../../basics/quantity.ts';
import { mean, sd } from '../../basics/statistics.ts';
import { combine } from '../uncertainty/uncertainty.ts';
import { partsOf } from './doubt.ts';
import { faultIn, isLopsided, LOPSIDED_LEFT, LOPSIDED_LOOK, whyUnlike, type Evidence } from './faults.ts';
import type { BacklashSettings, Flag, Refusal, Side, StationMeasured } from './measured.ts';
import { longestStretch, rocksOf, valuesOf, type Rest } from './rocks.ts';
import { LEAST_ROCKS, LOOKS, MOST_ROCKS, repeat } from './rule.ts';
import { tooFewRocks, whyFlagged, whyRefused } from './sentences.ts';
import { TOUCHES_MEANT, type Turn } from './turns.ts';

/** One tooth under the indicator, from its first rest until the stem leaves it. */
export interface Station {
  readonly number: number;
  readonly rests: Rest[];
  readonly flags: Set<Flag>;
  /** The turns before the first rest: no rests themselves, but they may show that something moved since. */
  earlier: readonly Turn[];
  stretch: number;
  /** Strokes made here, held or not, up to the last time the stem left the corridor. */
  strokes: number;
  /** Whole rocks already told of. */
  told: number;
  /** What the station came to; after that its rests are only watched for faults. */
  measured: StationMeasured | undefined;
}

/** Rests kept at one station; a technician who needs more has a fault to find first. */
const MOST_RESTS = 4 * MOST_ROCKS;

export const newStation = (number: number): Station => ({
  number,
  rests: [],
  flags: new Set(),
  earlier: [],
  stretch: 0,
  strokes: 0,
  told: 0,
  measured: undefined,
});

/** Keeps a rest, unless the station has its answer already. */
export function keepRest(station: Station, turn: Turn, side: Side): void {
  if (station.measured === undefined) station.rests.push({ ...turn, side, stretch: station.stretch });
}

/** A longer still at the same stop takes the place of a shorter one: the first was a rebound or a first touch. */
export function keepLonger(station: Station, turn: Turn): void {
  const last = station.rests.at(-1);
  if (last === undefined || station.measured !== undefined || turn.readings <= last.readings) return;
  station.rests[station.rests.length - 1] = { ...turn, side: last.side, stretch: last.stretch };
}

/** Levels are compared within one landing only: another one has another preload. */
export function evidenceOf(station: Station, settings: BacklashSettings, noise: number, hangs?: number): Evidence {
  const rests = longestStretch(station.rests);
  const isFirst = rests[0] === station.rests[0];
  return { rests, earlier: isFirst ? station.earlier : [], settings, noise, hangs };
}

/** Looks at a station that goes on. Gives what it came to, or undefined while more rocks are needed. */
export function review(station: Station, settings: BacklashSettings, noise: number): StationMeasured | undefined {
  const rocks = rocksOf(station.rests);
  if (!LOOKS.includes(rocks.length) && station.rests.length < MOST_RESTS) return undefined;
  const evidence = evidenceOf(station, settings, noise);
  const fault = faultIn(evidence);
  if (fault !== undefined) return refused(station, fault);
  const even = !isLopsided(evidence, LOPSIDED_LOOK);
  if (even && repeat(rocks, settings.resolution, noise)) return withValue(station, settings);
  if (rocks.length >= MOST_ROCKS || station.rests.length >= MOST_RESTS) return refused(station, whyUnlike(evidence));
  return undefined;
}

/** What else the stream has shown by the time a station is left. */
export interface Seen {
  /** Where the stem hangs free. */
  readonly hangs: number | undefined;
  /** Strokes without rests. */
  readonly notHeld: boolean;
  /** Times the other stop was touched and not held. */
  readonly touches: number;
}

/** What a station comes to that is left before it was done. */
export function leave(station: Station, settings: BacklashSettings, noise: number, seen: Seen): StationMeasured {
  const rocks = rocksOf(station.rests);
  const evidence = evidenceOf(station, settings, noise, seen.hangs);
  const fault = faultIn(evidence);
  if (fault !== undefined) return refused(station, fault);
  const even = !isLopsided(evidence, LOPSIDED_LEFT);
  if (even && repeat(rocks, settings.resolution, noise)) return withValue(station, settings);
  const reason = whyUnlike(evidence);
  if (reason === 'one-sided' || seen.touches >= TOUCHES_MEANT) return refused(station, 'one-sided');
  if (seen.notHeld) return refused(station, 'not-held');
  if (rocks.length >= LEAST_ROCKS) return refused(station, reason);
  return refused(station, station.flags.has('gap') ? 'gap' : reason, tooFewRocks(rocks.length, LEAST_ROCKS));
}

function spanOf(rests: readonly Rest[]): Pick<StationMeasured, 'from_t' | 'to_t'> {
  return { from_t: seconds(rests[0]?.from_t ?? 0), to_t: seconds(rests.at(-1)?.to_t ?? 0) };
}

function withValue(station: Station, settings: BacklashSettings): StationMeasured {
  const rocks = rocksOf(station.rests);
  const values = valuesOf(rocks);
  const spread = sd(values);
  const doubt = combine(partsOf(settings, spread, rocks.length));
  const flags = [...station.flags];
  const why = flags.map((flag) => whyFlagged[flag]).find((sentence) => sentence !== undefined);
  return {
    value: mm(mean(values)),
    rocks: rocks.length,
    sd: mm(spread),
    u: mm(doubt.u),
    U95: mm(doubt.U95),
    flags,
    parts: doubt.parts,
    ...spanOf(station.rests),
    ...(why === undefined ? {} : { why }),
  };
}

/** A station without a number, and why. */
export function refused(station: Station, reason: Refusal, why = whyRefused[reason]): StationMeasured {
  const values = valuesOf(rocksOf(station.rests));
  return {
    value: none(reason),
    rocks: values.length,
    sd: mm(values.length < 2 ? 0 : sd(values)),
    u: mm(0),
    U95: mm(0),
    flags: [...new Set([reason, ...station.flags])],
    parts: [],
    ...spanOf(station.rests),
    why,
  };
}

/** A done station about which something is learned afterwards that does not touch its rocks. */
export function flagged(measured: StationMeasured, flag: Flag): StationMeasured {
  if (measured.flags.includes(flag)) return measured;
  const why = measured.why ?? whyFlagged[flag];
  return { ...measured, flags: [...measured.flags, flag], ...(why === undefined ? {} : { why }) };
}
