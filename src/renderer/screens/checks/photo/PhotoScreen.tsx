import type { PhotoFor } from './photoFor.ts';
import { PhotoReading } from './PhotoReading.tsx';
import { PhotoSources } from './PhotoSources.tsx';
import './photo.css';

/** The mark on one flank, read off a photo: where the photo comes from, then the flank in it. */
export function PhotoScreen({ photo, ...of }: PhotoFor & { readonly photo: string | undefined }) {
  return photo === undefined ? <PhotoSources {...of} /> : <PhotoReading key={photo} {...of} photo={photo} />;
}
