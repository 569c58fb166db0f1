import { type DragEvent, useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { PhotoWay } from '../../../../shared/job/records/photo.ts';
import type { Problem } from '../../../../shared/basics/result.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { go, goInstead } from '../../../stores/route.ts';
import { CameraSource } from './CameraSource.tsx';
import { FolderSource } from './FolderSource.tsx';
import type { PhotoFor } from './photoFor.ts';
import { KeptPhotos } from './KeptPhotos.tsx';
import { keepTaken, takePhoto, type Taken, type Unkept } from './take.ts';

/** Where the photo comes from: a file, a drop, the clipboard, the folder a phone fills, or a camera on the bench. */
export function PhotoSources({ build, assembly, flank, place }: PhotoFor) {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const [unkept, setUnkept] = useState<Unkept>();
  const [camera, setCamera] = useState(false);
  const [over, setOver] = useState(false);
  const open = useCallback(
    (photo: string) => goInstead({ at: 'photo', build: build.id, assembly: assembly.id, flank, place, photo }),
    [build.id, assembly.id, flank, place],
  );
  const settle = (taken: Taken): boolean => {
    setBusy(false);
    if ('photo' in taken) {
      open(taken.photo.sha256);
      return true;
    }
    setProblem(taken.problem);
    setUnkept(taken.unkept);
    return false;
  };
  const take = async (file: Blob, from: PhotoWay): Promise<boolean> => {
    setBusy(true);
    setProblem(undefined);
    return settle(await takePhoto(assembly.id, file, from));
  };
  const pasted = useRef(take);
  useLayoutEffect(() => {
    pasted.current = take;
  });
  useEffect(() => {
    const paste = (event: ClipboardEvent): void => {
      const file = [...(event.clipboardData?.files ?? [])][0];
      if (file !== undefined) void pasted.current(file, 'clipboard');
    };
    addEventListener('paste', paste);
    return () => removeEventListener('paste', paste);
  }, []);
  const dropped = (event: DragEvent): void => {
    event.preventDefault();
    setOver(false);
    const file = [...event.dataTransfer.files][0];
    if (file !== undefined) void take(file, 'file');
  };
  const back = (): void => go({ at: 'check', build: build.id, assembly: assembly.id, check: 'mark' });
  return (
    <>
      <Stage title={`Photo of the ${flank} flank${placeWords(place)}`}>
        {camera ? (
          <CameraSource onTaken={(file) => void take(file, 'camera')} onClose={() => setCamera(false)} />
        ) : (
          <div
            className={`sources${over ? ' sources--over' : ''}`}
            onDragOver={(event) => {
              event.preventDefault();
              setOver(true);
            }}
            onDragLeave={() => setOver(false)}
            onDrop={dropped}
          >
            <div className="sources__ways">
              <FileButton onFile={(file) => void take(file, 'file')} />
              <Button onPress={() => setCamera(true)}>Use a camera on the bench</Button>
              <p className="quiet">Or drop a photo here, or paste one with Ctrl+V.</p>
            </div>
            <FolderSource onTaken={take} onProblem={setProblem} />
            <KeptPhotos photos={assembly.photos} onOpen={open} />
          </div>
        )}
      </Stage>
      <Words
        title={problem?.sentence ?? (busy ? 'Opening the photo …' : 'One flank, whole, from above the slot')}
        next={
          unkept === undefined
            ? undefined
            : { words: 'Keep the photo', run: () => void keepTaken(assembly.id, unkept).then(settle) }
        }
        others={<Button onPress={back}>Back to the mark</Button>}
      >
        <p>
          {problem?.remedy ??
            'The flank fills at least half the picture; the lamp stands to one side so that oil does not mirror it. The photo is shrunk and kept with this assembly, without place and time.'}
        </p>
      </Words>
    </>
  );
}

export const placeWords = (place: number): string => (place === 0 ? '' : `, place ${place + 1}`);

/** A button that opens the file dialog; the native field behind it is what a browser offers for that. */
function FileButton({ onFile }: { readonly onFile: (file: Blob) => void }) {
  const field = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button onPress={() => field.current?.click()}>Choose a file</Button>
      <input
        ref={field}
        hidden
        type="file"
        accept="image/*"
        aria-label="Photo file"
        onChange={({ currentTarget }) => {
          const file = currentTarget.files?.[0];
          currentTarget.value = '';
          if (file !== undefined) onFile(file);
        }}
      />
    </>
  );
}
