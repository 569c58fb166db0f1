import type { Angle, Time } from '../basics/quantity.ts';

/**
 * One reading as measuring sees it: already in the unit used inside (mm or N·m).
 * `t` is the bench's monotonic time in seconds, so that a clock set back cannot turn time round.
 * `angle` is there only when something measures it: of the ring gear, or of the pinion for torque.
 */
export interface Reading {
  readonly t: Time;
  readonly value: number;
  readonly angle?: Angle;
}

/** The technician's word by pedal, key or the gauge's own send button, in the same stream as the readings. */
export interface Press {
  readonly t: Time;
  readonly pedal: Pedal;
}

/** `next`: this station is done; `again`: forget this station's rocks and take it anew. */
export type Pedal = 'next' | 'again';

export type StreamItem = Reading | Press;

export const isPress = (item: StreamItem): item is Press => 'pedal' in item;
