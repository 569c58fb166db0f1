import type { Place } from './sight.ts';

/** Where one axle would have to stand, and how right it would be there. */
export interface OwnPlace {
  readonly place: Place;
  readonly worth: number;
  /** The most that any place without a hard coast edge is worth. */
  readonly worthFree: number;
}
