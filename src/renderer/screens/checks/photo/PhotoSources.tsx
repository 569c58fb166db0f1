import { type RefObject, useCallback, useRef, useState } from 'react';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { go, goInstead } from '../../../stores/route.ts';
import { CameraSource } from './CameraSource.tsx';
import { DropZone } from './DropZone.tsx';
import { FolderSource } from './FolderSource.tsx';
import { KeptPhotos } from './KeptPhotos.tsx';
import type { PhotoFor } from './photoFor.ts';
import { SimulatedPhoto } from './SimulatedPhoto.tsx';
import { usePasted } from './usePasted.ts';
import { useTaking } from './useTaking.ts';

/** Where the photo comes from: a file, a drop, the clipboard, the folder a phone fills, or a camera on the bench. */
export function PhotoSources({ build, assembly, flank, place }: PhotoFor) {
  const [camera, setCamera] = useState(false);
  const [shoot, setShoot] = useState<() => void>();
  const chooser = useRef<HTMLInputElement>(null);
  const open = useCallback(
    (photo: string) => goInstead({ at: 'photo', build: build.id, assembly: assembly.id, flank, place, photo }),
    [build.id, assembly.id, flank, place],
  );
  const { busy, problem, onProblem, take, keep } = useTaking(assembly.id, open);
  usePasted((file) => void take(file, 'clipboard'));
  const closeCamera = (): void => {
    setCamera(false);
    setShoot(undefined);
  };
  const act = (): void => {
    if (keep !== undefined) keep();
    else if (camera) shoot?.();
    else chooser.current?.click();
  };
  const back = (): void => go({ at: 'check', build: build.id, assembly: assembly.id, check: 'mark' });
  return (
    <>
      <Stage title={`Photo of the ${flank} flank${placeWords(place)}`}>
        {camera ? (
          <CameraSource
            onTaken={(file) => void take(file, 'camera')}
            onClose={closeCamera}
            onReady={(ready) => setShoot(() => ready)}
          />
        ) : (
          <DropZone onFile={(file) => void take(file, 'file')}>
            <div className="sources__ways">
              <FileField field={chooser} onFile={(file) => void take(file, 'file')} />
              <Button onPress={() => setCamera(true)}>Use a camera on the bench</Button>
              <SimulatedPhoto assembly={assembly} side={flank} onTaken={(file) => void take(file, 'camera')} />
              <p className="quiet">Or drop a photo here, or paste one with Ctrl+V.</p>
            </div>
            <FolderSource onTaken={take} onProblem={onProblem} />
            <KeptPhotos assembly={assembly} onOpen={open} />
          </DropZone>
        )}
      </Stage>
      <Words
        title={problem?.sentence ?? (busy ? 'Opening the photo …' : 'One flank, whole, from above the slot')}
        next={{
          ...wordsOf(keep !== undefined, camera),
          run: act,
          disabled: camera && keep === undefined && shoot === undefined,
        }}
        others={<Button onPress={back}>Back to the mark</Button>}
      >
        <p>{problem?.remedy ?? howTaken}</p>
      </Words>
    </>
  );
}

const howTaken =
  'The flank fills at least half the picture; the lamp stands to one side so that oil does not mirror it. The photo is shrunk and kept with this assembly, without place and time.';

export const placeWords = (place: number): string => (place === 0 ? '' : `, place ${place + 1}`);

/** Both hands hold lamp and gear: the pedal takes the photo. */
function wordsOf(waits: boolean, camera: boolean): Pick<NextAction, 'words'> {
  if (waits) return { words: 'Keep the photo' };
  return { words: camera ? 'Take the photo' : 'Choose a file' };
}

interface FileFieldProps {
  readonly field: RefObject<HTMLInputElement | null>;
  readonly onFile: (file: Blob) => void;
}

/** What a browser offers for choosing a file; the green button opens it. */
const FileField = ({ field, onFile }: FileFieldProps) => (
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
);
