import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import type { Side } from '../mark/draft.ts';
import { PhotoReading } from './PhotoReading.tsx';
import { PhotoSources } from './PhotoSources.tsx';
import './photo.css';

/** Which flank of which assembly a photo is taken for. */
export interface PhotoFor {
  readonly build: Build;
  readonly assembly: Assembly;
  readonly flank: Side;
  readonly place: number;
}

/** The mark on one flank, read off a photo: where the photo comes from, then the flank in it. */
export function PhotoScreen({ photo, ...of }: PhotoFor & { readonly photo: string | undefined }) {
  return photo === undefined ? <PhotoSources {...of} /> : <PhotoReading key={photo} {...of} photo={photo} />;
}
