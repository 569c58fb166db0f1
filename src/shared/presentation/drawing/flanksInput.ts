import type { Flank, Mark } from '../../axle/mark/mark.ts';
import type { Turned } from './flankShape.ts';
import type { SceneSize } from './scene.ts';

/** Where the centre of a mark should come to lie. */
export interface TargetZone {
  readonly heel: readonly [number, number];
  readonly crown: readonly [number, number];
}

/** What is drawn on one flank; anything not known is left out. */
export interface FlankView {
  readonly flank: Flank;
  /** The mark of this trial. */
  readonly seen?: Mark;
  /** The mark as found. */
  readonly found?: Mark;
  /** Where the plan expects it. */
  readonly planned?: Mark;
  readonly target?: TargetZone;
}

export interface FlanksInput {
  readonly drive: FlankView;
  readonly coast: FlankView;
  readonly cut?: 'face-milled' | 'face-hobbed' | 'not-known';
  readonly turned: Turned;
  readonly size: SceneSize;
  /** Small, beside others of its kind: without the names of the edges, which the larger picture has. */
  readonly bare?: boolean;
  /** Whether words may leave their usual places for a larger flank: on a screen of any size, not on the one paper. */
  readonly wordsGiveWay?: boolean;
  /** Room above and below each flank for controls that the page lays on its edges; they carry the edges' names. */
  readonly controlRoom?: number;
}
