import { Button } from 'react-aria-components';
import type { AssemblyPhoto } from '../../../../shared/job/records/build.ts';
import { usePhotoUrl } from '../../../stores/photos.ts';
import { timeWords } from '../../../words/days.ts';

/** The photos that are kept with an assembly, small; touching one opens it. */
export function KeptPhotos({
  photos,
  onOpen,
}: {
  readonly photos: readonly AssemblyPhoto[];
  readonly onOpen: (sha256: string) => void;
}) {
  if (photos.length === 0) return undefined;
  return (
    <section className="sources__part" aria-label="Photos of this assembly">
      <h2 className="sources__title">Photos of this assembly</h2>
      <ul className="thumbs">
        {photos.map((photo, n) => (
          <li key={photo.sha256}>
            <Button
              className="thumbs__one"
              aria-label={`Photo ${n + 1}, ${timeWords(photo.at)}`}
              onPress={() => onOpen(photo.sha256)}
            >
              <Thumb sha256={photo.sha256} />
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function Thumb({ sha256 }: { readonly sha256: string }) {
  const url = usePhotoUrl(sha256);
  return url === undefined ? (
    <span className="thumbs__wait">…</span>
  ) : (
    <img decoding="async" className="thumbs__picture" src={url} alt="" draggable={false} />
  );
}
