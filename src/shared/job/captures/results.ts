import type { BacklashMeasured, StationMeasured } from '../../measuring/backlash/measured.ts';
import type { RunoutMeasured } from '../../measuring/runout/runoutMeasured.ts';
import type { TorqueMeasured } from '../../measuring/torque/torque.ts';
import type { UncertaintyPart } from '../../measuring/uncertainty/uncertainty.ts';
import { toDegrees } from '../../basics/quantity.ts';
import type { BacklashBasis, TorqueBasis } from '../../basics/recorded.ts';
import type { BacklashResult, PlayResult, RunoutResult, StationResult, TorqueResult } from '../records/measurement.ts';
import type { SpreadMeasured } from '../../measuring/spread.ts';
import type { EndPlayMeasured } from '../../measuring/endPlay.ts';
import { isNone, none, type NoNumber } from '../../basics/result.ts';

/** Measured figures as records keep them: plain numbers with the unit in the name, fit for JSON. */
export const backlashResult = (measured: BacklashMeasured, basis: BacklashBasis): BacklashResult => ({
  kind: 'backlash',
  basis,
  stations: measured.stations.map(stationResult),
  mean_mm: measured.mean,
  meanU95_mm: measured.meanU95,
  min_mm: measured.min,
  max_mm: measured.max,
  variation_mm: measured.variation,
  variationU95_mm: measured.variationU95,
});

function stationResult(station: StationMeasured, index: number): StationResult {
  // A station without a number has no doubt about it either.
  const doubt = (value: number): number | NoNumber => (isNone(station.value) ? none(station.value.none) : value);
  return {
    number: index + 1,
    value_mm: station.value,
    rocks: station.rocks,
    sd_mm: station.rocks < 2 ? none('one-rock') : station.sd,
    u_mm: doubt(station.u),
    U95_mm: doubt(station.U95),
    flags: [...station.flags],
    parts: plainParts(station.parts),
    ...(station.why === undefined ? {} : { why: station.why }),
  };
}

export function runoutResult(measured: RunoutMeasured): RunoutResult {
  const { harmonics, stations = [] } = measured;
  return {
    kind: 'runout',
    tir_mm: measured.tir,
    harmonics: isNone(harmonics)
      ? harmonics
      : harmonics.map(({ order, amplitude, highSpot, u }) => ({
          order,
          amplitude_mm: amplitude,
          highSpot_deg: toDegrees(highSpot),
          u_mm: u,
        })),
    residual_mm: measured.residual,
    stations: stations.map(({ number, value, angle }) => ({
      number,
      value_mm: value,
      ...(angle === undefined ? {} : { angle_deg: toDegrees(angle) }),
    })),
    missAtWorst_mm: measured.missAtWorst,
    shape: measured.shape,
    ...(measured.burr === undefined
      ? {}
      : { burr: { angle_deg: toDegrees(measured.burr.angle), height_mm: measured.burr.height } }),
    // A runout without a number has no doubt about it either.
    u_mm: isNone(measured.tir) ? measured.tir : measured.u,
    U95_mm: isNone(measured.tir) ? measured.tir : measured.U95,
    flags: [...measured.flags],
    parts: plainParts(measured.parts),
  };
}

export const torqueResult = (measured: TorqueMeasured, basis: TorqueBasis): TorqueResult => ({
  kind: 'torque',
  basis,
  running_Nm: measured.running,
  breakaway_Nm: measured.breakaway,
  breakawayU95_Nm: isNone(measured.breakaway) ? measured.breakaway : measured.breakawayU95,
  ...(measured.breakawayParts.length === 0 ? {} : { breakawayParts: plainParts(measured.breakawayParts) }),
  ripple_Nm: measured.ripple,
  drift_Nm: measured.drift,
  average: measured.average,
  turns: measured.turns,
  zero_Nm: measured.zero,
  u_Nm: measured.u,
  U95_Nm: measured.U95,
  flags: [...measured.flags],
  parts: plainParts(measured.parts),
});

const plainParts = (parts: readonly UncertaintyPart[]) =>
  parts.map(({ name, u, nu }) => ({ name, u, ...(nu === undefined ? {} : { nu }) }));

export const spreadResult = ({ value, u, U95, parts }: SpreadMeasured): PlayResult => ({
  kind: 'play',
  value_mm: value,
  strokes: isNone(value) ? 0 : 1,
  sd_mm: 0,
  u_mm: u,
  U95_mm: U95,
  flags: [],
  parts: plainParts(parts),
  ...(isNone(value) ? { why: 'One rest makes no spread: read it without preload, and then under it.' } : {}),
});

export const playResult = ({ value, strokes, sd, u, U95, flags, parts, why }: EndPlayMeasured): PlayResult => ({
  kind: 'play',
  value_mm: value,
  strokes,
  sd_mm: sd,
  u_mm: u,
  U95_mm: U95,
  flags: [...flags],
  parts: parts.map((part) => ({ ...part })),
  ...(why === undefined ? {} : { why }),
});
