import { isNone } from '../../basics/result.ts';
import type { RingStation } from './ringInput.ts';

/** The station that reads largest or smallest. */
export interface Extreme {
  readonly station: RingStation;
  readonly value_mm: number;
  readonly words: 'high' | 'low';
}

/** Differences below this are the indicator's, not the gear's. */
const leastDifference_mm = 0.0005;

/** Which station reads largest and which smallest; nothing where fewer than three have a number or all are alike. */
export function extremes(stations: readonly RingStation[]): readonly Extreme[] {
  const known = stations
    .flatMap((station) => (isNone(station.value_mm) ? [] : [{ station, value_mm: station.value_mm }]))
    .sort((a, b) => a.value_mm - b.value_mm);
  const [low, high] = [known[0], known.at(-1)];
  if (low === undefined || high === undefined || known.length < 3) return [];
  if (high.value_mm - low.value_mm < leastDifference_mm) return [];
  return [
    { ...high, words: 'high' },
    { ...low, words: 'low' },
  ];
}

/** A station with its number in mm. */
interface Known {
  readonly angle_deg: number;
  readonly value_mm: number;
}

/** Stations beside each other round the gear that both have a number, the last and the first too; three are needed for a run. */
export function neighbours(stations: readonly RingStation[]): readonly { readonly from: Known; readonly to: Known }[] {
  const sorted = stations.toSorted((a, b) => a.angle_deg - b.angle_deg);
  if (sorted.length < 3) return [];
  return sorted.flatMap((from, index) => {
    const to = sorted[(index + 1) % sorted.length] ?? from;
    if (isNone(from.value_mm) || isNone(to.value_mm)) return [];
    return [
      {
        from: { angle_deg: from.angle_deg, value_mm: from.value_mm },
        to: { angle_deg: to.angle_deg, value_mm: to.value_mm },
      },
    ];
  });
}
