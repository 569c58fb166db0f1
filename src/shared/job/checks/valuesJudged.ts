import { variationDoubt } from '../../measuring/backlash/around.ts';
import { judge } from '../../measuring/uncertainty/verdict.ts';
import {
  combine,
  resolutionOf,
  resolutionOfDifference,
  type UncertaintyPart,
} from '../../measuring/uncertainty/uncertainty.ts';
import type { Assembly, Measurement } from '../records/build.ts';
import { insideOf } from '../../basics/recorded.ts';
import type { BacklashResult, NotchesResult, RunoutResult, TorqueResult } from '../records/measurement.ts';
import { endsOf, type Limit, limitedQuantities } from '../records/specSheet.ts';
import { isNone, type OrNone } from '../../basics/result.ts';
import { fewestStations } from './checks.ts';
import { noCase } from '../../basics/noCase.ts';

interface Valued {
  readonly value: OrNone<number>;
  readonly U95: number;
  /** What the doubt is made of, to say what would settle a close call. */
  readonly parts: readonly UncertaintyPart[];
}

/** The numbers a limit judges (every station for a backlash window), or the sentence that says why there are none. */
export function valuesFor(limit: Limit, measurement: Measurement, assembly: Assembly): readonly Valued[] | string {
  const { result } = measurement;
  switch (result.kind) {
    case 'backlash':
      return backlashValues(limit, result);
    case 'runout':
      return runoutValue(limit, measurement, result);
    case 'torque':
      return torqueValue(limit, result);
    case 'play':
      return isNone(result.value_mm)
        ? (result.why ?? `no number: ${plain(result.value_mm.none)}`)
        : [{ value: result.value_mm, U95: result.U95_mm, parts: partsOf(result) }];
    case 'quantity':
      return [{ value: insideOf(result.value), ...typedDoubt(limit, measurement) }];
    case 'notches':
      return notchesValue(result);
    case 'feeler':
    case 'set-numbers':
    case 'shims':
    case 'confirmed':
    case 'mark':
      return `nothing to compare with a limit for ${assembly.phase}`;
    default:
      throw noCase(result);
  }
}

/**
 * A preload counted in notches, both sides together. Notches are counted whole; zero play, from which they count, is felt to
 * within half a notch on each side (own assumption), evenly spread.
 */
function notchesValue({ ringSide, oppositeSide, each_mm }: NotchesResult): readonly Valued[] | string {
  if (each_mm === undefined) return 'nobody knows yet what one notch moves';
  const { U95, parts } = combine([{ name: 'zero play', u: (each_mm / 2 / Math.sqrt(3)) * Math.SQRT2 }]);
  return [{ value: (ringSide + oppositeSide) * each_mm, U95, parts }];
}

/** As with backlash, stations that were left out may be the worst; they cannot bring a runout back that is outside already. */
function runoutValue(limit: Limit, { how }: Measurement, result: RunoutResult): readonly Valued[] | string {
  const { tir_mm, stations } = result;
  if (isNone(tir_mm)) return `no runout: ${plain(tir_mm.none)}`;
  const wanted = how.kind === 'streamed' && how.settings.kind === 'runout' ? (how.settings.stations ?? 0) : 0;
  const missing = stations.length > 0 && stations.length < wanted;
  if (missing && judge(tir_mm, 0, endsOf(limit), 'simple').verdict !== 'outside')
    return `${stations.length} of ${wanted} stations read`;
  return [{ value: tir_mm, U95: numberOr0(result.U95_mm), parts: partsOf(result) }];
}

/**
 * A number read off a tool is known to half its last division; nothing else about the tool is assumed. A play, a runout or a
 * spread is the difference of two such readings, the one it was zeroed at among them: both are rounded (δ/√6).
 */
function typedDoubt({ quantity }: Limit, { how }: Measurement): Pick<Valued, 'U95' | 'parts'> {
  const rounding = limitedQuantities[quantity] === 'length' ? resolutionOfDifference : resolutionOf;
  const { U95, parts } = combine(
    how.kind === 'typed' ? [{ name: 'resolution', u: rounding(insideOf(how.resolution)) }] : [],
  );
  return { U95, parts };
}

/** Parts as records keep them, as uncertainties take them: an absent number of degrees is left out, not undefined. */
const partsOf = (recorded: Pick<RunoutResult, 'parts'>): readonly UncertaintyPart[] =>
  recorded.parts.map(({ name, u, nu }) => ({ name, u, ...(nu === undefined ? {} : { nu }) }));

/**
 * Every station is judged against the window. One that lies outside settles it, even while another has no number:
 * measuring that one cannot bring the first inside.
 */
function backlashValues(limit: Limit, result: BacklashResult): readonly Valued[] | string {
  const why = unfinished(result);
  if (why !== undefined && (limit.quantity !== 'backlash' || !anyOutside(limit, result))) return why;
  if (limit.quantity === 'backlash-variation') return [{ value: result.variation_mm, ...doubtOfVariation(result) }];
  return result.stations.map((station) => ({
    value: station.value_mm,
    U95: numberOr0(station.U95_mm),
    parts: partsOf(station),
  }));
}

function anyOutside(limit: Limit, result: BacklashResult): boolean {
  const ends = endsOf(limit);
  return result.stations.some((station) => judge(station.value_mm, 0, ends, 'simple').verdict === 'outside');
}

/** Why the backlash is not known round the gear yet. */
export function unfinished(result: BacklashResult): string | undefined {
  const refused = result.stations.find((station) => isNone(station.value_mm));
  if (refused !== undefined && isNone(refused.value_mm))
    return `station ${refused.number} has no number: ${plain(refused.value_mm.none)}`;
  if (result.stations.length < fewestStations)
    return `${result.stations.length} of ${fewestStations} stations measured`;
  return undefined;
}

/** Largest minus smallest: its doubt follows from the recorded parts of the stations, of whatever time the record is. */
function doubtOfVariation({ stations }: BacklashResult): Pick<Valued, 'U95' | 'parts'> {
  const valued = stations.flatMap((station) =>
    isNone(station.value_mm) ? [] : [{ value: station.value_mm, parts: partsOf(station) }],
  );
  const { U95, parts } = variationDoubt(valued);
  return { U95, parts };
}

/** A running limit judges the running torque, a starting limit the breakaway. */
function torqueValue(limit: Limit, result: TorqueResult): readonly Valued[] | string {
  const starting = 'basis' in limit && 'seal' in limit.basis && limit.basis.basis === 'starting';
  const value = starting ? result.breakaway_Nm : result.running_Nm;
  if (isNone(value)) return `no torque: ${plain(value.none)}`;
  return starting
    ? [{ value, U95: numberOr0(result.breakawayU95_Nm), parts: partsOf({ parts: result.breakawayParts ?? [] }) }]
    : [{ value, U95: numberOr0(result.U95_Nm), parts: partsOf(result) }];
}

/** A recorded reason as words: what it is called inside is no sentence of the trade. */
const plain = (reason: string): string => reason.replaceAll('-', ' ');

const numberOr0 = (value: OrNone<number> | undefined): number => (typeof value === 'number' ? value : 0);
