import type { UnitSystem } from '../../basics/show.ts';
import type { OrNone } from '../../basics/result.ts';
import type { Limits } from './scale.ts';
import type { SceneSize } from './scene.ts';
import type { State } from './states.ts';

/** One numbered place on the ring gear and what was found there. */
export interface RingStation {
  readonly number: number;
  /** Clockwise, looking at the teeth; station 1 is usually at 0, which is drawn at the top. */
  readonly angle_deg: number;
  readonly value_mm: OrNone<number>;
  readonly U95_mm?: number;
  readonly state: State;
}

/** Runout as read around the gear, as its harmonics, or both; on the same angles as the stations. */
export interface RingRunout {
  readonly tir_mm: number;
  readonly limit_mm?: number;
  readonly samples?: readonly { readonly angle_deg: number; readonly value_mm: number }[];
  readonly harmonics?: readonly {
    readonly order: number;
    readonly amplitude_mm: number;
    readonly highSpot_deg: number;
  }[];
  readonly highSpot_deg?: number;
}

/** Whether anything is known of where the gear runs out; a full movement alone has no shape to draw beside the stations. */
export const hasShape = ({ samples = [], harmonics = [] }: RingRunout): boolean =>
  samples.length > 0 || harmonics.length > 0;

/** The input without a runout that has no shape, where there are stations to give its room to. */
export function drawnTogether(input: RingInput): RingInput {
  const { runout, ...without } = input;
  return runout === undefined || hasShape(runout) || input.stations.length === 0 ? input : without;
}

/** What stands in the middle, as large as it fits. */
interface RingCentre {
  readonly digits?: string;
  readonly unit?: string;
  readonly words: readonly string[];
}

export interface RingInput {
  /** What the values are, for the words: "Backlash". */
  readonly quantity: string;
  readonly teeth: number;
  readonly stations: readonly RingStation[];
  /** Window in millimetres. */
  readonly limits?: Limits;
  readonly runout?: RingRunout;
  /** The reading now; without an angle it is drawn as a circle, because nobody knows where it is. */
  readonly live?: { readonly angle_deg?: number; readonly value_mm: number };
  /** Number of the station to be taken next, in the accent. */
  readonly next?: number;
  readonly centre?: RingCentre;
  readonly system: UnitSystem;
  readonly size: SceneSize;
}
