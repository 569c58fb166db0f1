import { Button as Pressable } from 'react-aria-components';
import type { Assembly, AssemblyPhoto } from '../../../../shared/job/records/build.ts';
import { Button } from '../../../parts/Button.tsx';
import { putAside } from '../../../stores/notebook.ts';
import { usePhotoUrl } from '../../../stores/photos.ts';
import { timeWords } from '../../../words/days.ts';
import { markResultOf } from '../mark/draft.ts';

/**
 * The photos that are kept with an assembly, small; touching one opens it. One that no mark was read off can be put aside: its
 * entry is struck through, and redo brings it back.
 */
export function KeptPhotos({
  assembly,
  onOpen,
}: {
  readonly assembly: Assembly;
  readonly onOpen: (sha256: string) => void;
}) {
  const { photos } = assembly;
  if (photos.length === 0) return undefined;
  const read = new Set(markResultOf(assembly)?.photos?.map(({ photo }) => photo));
  return (
    <section className="sources__part" aria-label="Photos of this assembly">
      <h2 className="sources__title">Photos of this assembly</h2>
      <ul className="thumbs">
        {photos.map((photo, n) => (
          <li key={photo.sha256}>
            <Pressable
              className="thumbs__one"
              aria-label={`Photo ${n + 1}, ${timeWords(photo.at)}`}
              onPress={() => onOpen(photo.sha256)}
            >
              <Thumb sha256={photo.sha256} />
            </Pressable>
            {read.has(photo.sha256) ? undefined : <PutAside photo={photo} number={n + 1} />}
          </li>
        ))}
      </ul>
    </section>
  );
}

const PutAside = ({ photo, number }: { readonly photo: AssemblyPhoto; readonly number: number }) => (
  <Button look="quiet" more={`photo ${number}`} onPress={() => void putAside(photo.id, 'photo put aside')}>
    Put aside
  </Button>
);

export function Thumb({ sha256 }: { readonly sha256: string }) {
  const url = usePhotoUrl(sha256);
  return url === undefined ? (
    <span className="thumbs__wait">…</span>
  ) : (
    <img decoding="async" className="thumbs__picture" src={url} alt="" draggable={false} />
  );
}
