import { mean } from '../../basics/statistics.ts';
import type { BacklashSettings } from './measured.ts';
import type { Between, Row } from './neighbours.ts';
import type { Turn } from './turns.ts';

/** What is known while a station's rests are looked at for faults. All lengths in mm. */
export interface Evidence {
  /** The longest row: levels are compared within one only, another landing has another preload. */
  readonly rests: Row;
  /** What all rows say together. */
  readonly between: Between;
  /** The turns before the first rest. */
  readonly earlier: readonly Turn[];
  readonly settings: BacklashSettings;
  /** Standard deviation of one reading. */
  readonly noise: number;
  /** Where the stem hung free earlier in the session. */
  readonly hangs: number | undefined;
}

/** Standard error of a rest's level, the usual one of these rests. */
export const restError = ({ rests, noise }: Evidence): number =>
  noise / Math.sqrt(mean(rests.map((rest) => rest.readings)));
