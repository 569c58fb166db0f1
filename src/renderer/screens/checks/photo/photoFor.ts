import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import type { Side } from '../mark/draft.ts';

/** Which flank of which assembly a photo is taken for. */
export interface PhotoFor {
  readonly build: Build;
  readonly assembly: Assembly;
  readonly flank: Side;
  readonly place: number;
}
