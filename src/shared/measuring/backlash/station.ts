import { isNone, none } from '../../basics/result.ts';
import { mm, seconds } from '../../basics/quantity.ts';
import { sd } from '../../basics/statistics.ts';
import { combine } from '../uncertainty/uncertainty.ts';
import { partsOf } from './doubt.ts';
import { driftsAlong } from './drift.ts';
import type { Evidence } from './evidence.ts';
import { faultIn } from './faults.ts';
import { heldAt, wanders } from './held.ts';
import type { BacklashSettings, Flag, Refusal, Side, StationMeasured } from './measured.ts';
import { between, longestRow } from './neighbours.ts';
import { rocksOf, valuesOf, type Rest } from './rocks.ts';
import { LEAST_ROCKS, LOOKS } from './rule.ts';
import { oddities, unlike, wantsMore } from './sides.ts';
import { tooFewRocks, whyFlagged, whyRefused } from './sentences.ts';
import type { Turn } from './turns.ts';

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
const MOST_RESTS = 32;

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

/** What a station's rests show so far; undefined while they are too few. */
export function evidenceOf(
  station: Station,
  { settings, noise, hangs }: Pick<Evidence, 'settings' | 'noise' | 'hangs'>,
): Evidence | undefined {
  const found = between(station.rests);
  const rests = longestRow(station.rests);
  if (found === undefined || rests === undefined) return undefined;
  const isFirst = rests[0] === station.rests[0];
  return { rests, between: found, earlier: isFirst ? station.earlier : [], settings, noise, hangs };
}

/** Looks at a station that goes on. Gives what it came to, or undefined while more rocks are needed. */
export function review(station: Station, settings: BacklashSettings, noise: number): StationMeasured | undefined {
  const rocks = rocksOf(station.rests).length;
  const isLast = rocks >= LOOKS[1] || station.rests.length >= MOST_RESTS;
  if (rocks !== LOOKS[0] && !isLast) return undefined;
  const evidence = evidenceOf(station, { settings, noise, hangs: undefined });
  if (evidence === undefined) return isLast ? refused(station, 'not-repeatable') : undefined;
  const fault = faultIn(evidence);
  if (fault !== undefined) return refused(station, fault.reason, fault.why);
  if (isLast) return decided(station, evidence);
  return wantsMore(evidence) ? undefined : withValue(station, evidence);
}

/** The answer of rests that show no fault. */
function decided(station: Station, evidence: Evidence): StationMeasured {
  const reason = unlike(evidence);
  return reason === undefined ? withValue(station, evidence) : refused(station, reason);
}

/** What else the stream has shown by the time a station is left. */
interface Seen {
  /** Where the stem hangs free. */
  readonly hangs: number | undefined;
  /** Strokes without rests. */
  readonly notHeld: boolean;
  /** The other stop was touched and not held. */
  readonly touchedOnly: boolean;
}

/** What a station comes to that is left before it was done. */
export function leave(station: Station, settings: BacklashSettings, noise: number, seen: Seen): StationMeasured {
  const rocks = rocksOf(station.rests).length;
  const evidence = evidenceOf(station, { settings, noise, hangs: seen.hangs });
  const fault = evidence === undefined ? undefined : faultIn(evidence);
  if (fault !== undefined) return refused(station, fault.reason, fault.why);
  const measured = evidence === undefined || rocks < LEAST_ROCKS ? undefined : decided(station, evidence);
  if (measured !== undefined && !isNone(measured.value)) return measured;
  if (seen.touchedOnly) return refused(station, 'one-sided');
  if (seen.notHeld) return refused(station, 'not-held');
  if (measured !== undefined) return measured;
  const reason = station.flags.has('gap') ? 'gap' : 'not-repeatable';
  return refused(station, reason, tooFewRocks(rocks, LEAST_ROCKS));
}

function spanOf(rests: readonly Rest[]): Pick<StationMeasured, 'from_t' | 'to_t'> {
  return { from_t: seconds(rests[0]?.from_t ?? 0), to_t: seconds(rests.at(-1)?.to_t ?? 0) };
}

function withValue(station: Station, evidence: Evidence): StationMeasured {
  const { between: found, rests, settings, noise } = evidence;
  const held = heldAt(rests, found, { noise, resolution: settings.resolution });
  const doubt = combine(partsOf(settings, found, held));
  const flags = [...new Set([...station.flags, ...flagsOf(evidence)])];
  const why = flags.map((flag) => whyFlagged[flag]).find((sentence) => sentence !== undefined);
  return {
    value: mm(found.value),
    rocks: rocksOf(station.rests).length,
    sd: mm(Math.SQRT2 * found.sd),
    u: mm(doubt.u),
    U95: mm(doubt.U95),
    flags,
    parts: doubt.parts,
    ...spanOf(station.rests),
    ...(why === undefined ? {} : { why }),
  };
}

/** What makes a number doubtful without forbidding it. */
const flagsOf = (evidence: Evidence): readonly Flag[] => [
  ...(driftsAlong(evidence) ? (['drift'] as const) : []),
  ...oddities(evidence),
  ...(wanders(evidence) ? (['correlated-noise'] as const) : []),
];

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
