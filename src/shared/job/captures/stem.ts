import type { BacklashEvent, BacklashMeasured, StationMeasured } from '../../measuring/backlash/measured.ts';
import { misreading, squared, type Stem, stemParts } from '../../measuring/indicatorSetup.ts';
import { aroundTheGear } from '../../measuring/backlash/around.ts';
import { combine, rectangular, type UncertaintyPart } from '../../measuring/uncertainty/uncertainty.ts';
import { type Angle, degrees, type Length, mm } from '../../basics/quantity.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import type { StemSaid } from '../records/measurement.ts';
import { isNone } from '../../basics/result.ts';
import { noCase } from '../../basics/noCase.ts';

/**
 * What a stem that stands off makes of every reading: `factor` frees it from the slant, as far as that can be told, and
 * `partsFor` is what stays open, in the value already freed.
 */
interface StemEffect {
  readonly factor: number;
  readonly partsFor: (value: Length) => readonly UncertaintyPart[];
}

/**
 * The tip and the basis belong together in two of four cases: a stem riding the flank square to the tooth reads high by
 * 1/cos of how far it stands off, one following a point along the turn low by cos. There the reading is corrected.
 *
 * In the other two the stem stands aslant by design (along the turn it rides the flank at its slant, and reads the turn
 * truly): a little off changes the reading either way, by the tangent of that slant, and nobody says which way. There
 * nothing is corrected and the doubt says so. Derived; docs/uncertainty.md.
 */
export function stemEffect(basis: BacklashBasis, said: StemSaid): StemEffect {
  const stem = stemOf(said);
  if (ownDirection[said.tip] === basis.direction) {
    return { factor: squared(mm(1), stem), partsFor: (value) => stemParts(value, stem) };
  }
  const off = Math.hypot(stem.angle, stem.angleU ?? 0);
  const byOff = (Math.tan(usualSlant) * off) / Math.SQRT2;
  const { angleU: _, ...rest } = stem;
  return {
    factor: 1,
    partsFor: (value) => [
      ...(byOff === 0 ? [] : [{ name: 'stem angle', u: Math.abs(value) * byOff }]),
      ...stemParts(value, rest),
    ],
  };
}

/** The direction in which a tip reads without a slant. */
const ownDirection: Readonly<Record<StemSaid['tip'], BacklashBasis['direction']>> = {
  'rides-flank': 'square-to-tooth',
  'follows-point': 'along-rotation',
};

/**
 * Angle between the turn and the tooth's normal, cos = cos α·cos β, for a flank of 20° pressure angle and 35° spiral (an
 * ordinary set, common practice). The direction in which a stem stands off is anyone's guess, hence the √2 above.
 */
const usualSlant = Math.acos(Math.cos(Math.PI / 9) * Math.cos((35 * Math.PI) / 180));

/** A stated ± is worth its half-width over √3. */
const stemOf = ({ tip, off_deg, offWithin_deg, radius_mm, radiusWithin_mm }: StemSaid): Stem => ({
  tip,
  angle: degrees(off_deg),
  ...(offWithin_deg === undefined ? {} : { angleU: rectangular(degrees(offWithin_deg)) as Angle }),
  ...(radius_mm === undefined ? {} : { radius: mm(radius_mm) }),
  ...(radiusWithin_mm === undefined ? {} : { radiusU: mm(rectangular(radiusWithin_mm)) }),
});

/** By how much the readings are off, as a share (above 0: they read high); undefined where that cannot be told. */
export const stemMisreads = (basis: BacklashBasis, said: StemSaid): number | undefined =>
  ownDirection[said.tip] === basis.direction ? misreading(stemOf(said)) : undefined;

/** A station freed from how the stem stood, with the doubt that this leaves. */
function stationWith(station: StationMeasured, { factor, partsFor }: StemEffect): StationMeasured {
  const { value, sd, parts } = station;
  if (isNone(value)) return station;
  const freed = mm(value * factor);
  const scaled = parts.map((part) => ({ ...part, u: part.u * factor }));
  const doubt = combine([...scaled, ...partsFor(freed)]);
  return { ...station, value: freed, sd: mm(sd * factor), u: mm(doubt.u), U95: mm(doubt.U95), parts: doubt.parts };
}

/** A whole backlash freed from how the stem stood. */
export function stemmed(
  measured: BacklashMeasured,
  basis: BacklashBasis,
  said: StemSaid | undefined,
): BacklashMeasured {
  if (said === undefined) return measured;
  const effect = stemEffect(basis, said);
  return aroundTheGear(measured.stations.map((station) => stationWith(station, effect)));
}

/** Stations taken earlier, as the screen shows them. */
export const stemmedStations = (
  stations: readonly StationMeasured[],
  basis: BacklashBasis,
  said: StemSaid | undefined,
): readonly StationMeasured[] => stemmed(aroundTheGear(stations), basis, said).stations;

/** The same for what is found while measuring, so that screen and record say one number. */
export function stemmedEvents(
  events: readonly BacklashEvent[],
  basis: BacklashBasis,
  said: StemSaid | undefined,
): readonly BacklashEvent[] {
  if (said === undefined || events.length === 0) return events;
  const effect = stemEffect(basis, said);
  return events.map((event) => eventWith(event, effect));
}

function eventWith(event: BacklashEvent, effect: StemEffect): BacklashEvent {
  switch (event.kind) {
    case 'rock-counted':
      return { ...event, value: mm(event.value * effect.factor), mean: mm(event.mean * effect.factor) };
    case 'station-done':
      return { ...event, measured: stationWith(event.measured, effect) };
    case 'all-done':
    case 'gap':
    case 'landed':
    case 'lifted':
    case 'nothing-measured':
    case 'rest-found':
    case 'station-refused':
    case 'taken-anew':
      return event;
    default:
      throw noCase(event);
  }
}
