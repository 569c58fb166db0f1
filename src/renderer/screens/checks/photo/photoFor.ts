import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import type { FlankSide } from '../mark/draft.ts';

/** Which flank of which assembly a photo is taken for. */
export interface PhotoFor {
  readonly build: Build;
  readonly assembly: Assembly;
  readonly flank: FlankSide;
  readonly place: number;
}
