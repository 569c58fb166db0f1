import { useMemo, useState } from 'react';
import type { FlankCorners } from '../../../../shared/axle/mark/photo.ts';
import type { ReadMark } from '../../../photos/messages.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { go, goInstead } from '../../../stores/route.ts';
import { usePhotoUrl } from '../../../stores/photos.ts';
import { type MarkDraft, readFrom, withPhotoRead } from '../mark/draft.ts';
import { changeMarkDraft, useMarkDraft } from '../mark/draftStore.ts';
import { PhotoPicture } from './PhotoPicture.tsx';
import type { PhotoFor } from './photoFor.ts';
import { placeWords } from './PhotoSources.tsx';
import { markNumbers, nextCorner } from './readingWords.ts';
import { StraightFlank } from './StraightFlank.tsx';
import { cornersOf, depthOf, howRead, nothingSaid, type Said, useReading } from './usePhoto.ts';

interface PhotoReadingProps extends PhotoFor {
  readonly photo: string;
}

/** A photo with the flank's corners tapped in it, the flank laid straight beside it, and the mark as it was read. */
export function PhotoReading({ build, assembly, flank, place, photo }: PhotoReadingProps) {
  const { draft } = useMarkDraft(assembly);
  const [said, setSaid] = useState<Said>(() => saidBefore(draft, photo, place, flank));
  const depth = depthOf(build.makeUp?.cut);
  const { size, reading, upToDate } = useReading(photo, said, depth);
  const url = usePhotoUrl(photo);
  const corners = cornersOf(said);
  const mark = reading?.result.ok === true ? reading.result.value : undefined;
  const problem = reading === undefined || reading.result.ok ? undefined : reading.result.problem;
  // Where nothing was read the brush begins on an empty flank.
  const fromEmpty = said.fromEmpty || problem !== undefined;
  const bends = useMemo(() => said.bends ?? mark?.bends, [said.bends, mark]);
  const back = (): void => go({ at: 'check', build: build.id, assembly: assembly.id, check: 'mark' });
  const other = (): void => goInstead({ at: 'photo', build: build.id, assembly: assembly.id, flank, place });
  const use = (found: ReadMark, at: FlankCorners): void => {
    const { area, ...seen } = found.mark;
    const read = { photo, flank, place, corners: at, ...howRead(said, depth), area };
    changeMarkDraft(assembly, (now) => withPhotoRead(now, seen, { ...read, warnings: [...found.warnings] }));
    back();
  };
  return (
    <>
      <Stage
        fill
        title={`Photo of the ${flank} flank${placeWords(place)}`}
        aside={<Corners said={said} size={size} onChange={setSaid} />}
      >
        <div className="reading">
          <PhotoPicture url={url} size={size} said={said} bends={bends} onChange={setSaid} />
          <StraightFlank
            picture={reading?.straight}
            mask={mark?.mask}
            brushed={said.brushed}
            fromEmpty={fromEmpty}
            onBrush={(brushed) => setSaid({ ...said, brushed, fromEmpty: brushed.length > 0 && fromEmpty })}
            onEmpty={(empty) => setSaid({ ...said, brushed: [], fromEmpty: empty })}
            warnings={mark?.warnings ?? []}
          />
        </div>
      </Stage>
      <ReadWords
        flank={flank}
        said={said}
        reading={reading}
        use={
          mark === undefined || corners === undefined || !upToDate
            ? undefined
            : () => {
                use(mark, corners);
              }
        }
        onOther={other}
        onBack={back}
      />
    </>
  );
}

interface ReadWordsProps {
  readonly flank: PhotoFor['flank'];
  readonly said: Said;
  readonly reading: ReturnType<typeof useReading>['reading'];
  /** Takes the mark as it was read; undefined while there is none, or it is being read again. */
  readonly use: (() => void) | undefined;
  readonly onOther: () => void;
  readonly onBack: () => void;
}

/** What the photo shows, or what stands in the way of reading it. */
function ReadWords({ flank, said, reading, use, onOther, onBack }: ReadWordsProps) {
  const corners = cornersOf(said);
  const mark = reading?.result.ok === true ? reading.result.value : undefined;
  const problem = reading === undefined || reading.result.ok ? undefined : reading.result.problem;
  return (
    <Words
      title={problem?.sentence ?? titleOf(said)}
      next={{ words: `Use it for the ${flank} flank`, run: () => use?.(), disabled: use === undefined }}
      others={
        <>
          <Button onPress={onOther}>Another photo</Button>
          <Button onPress={onBack}>Back to the mark</Button>
        </>
      }
    >
      {problem === undefined ? undefined : <p>{problem.remedy}</p>}
      {mark === undefined ? undefined : (
        <p className="digits" data-read="numbers" data-took-ms={reading?.took_ms.toFixed(0)}>
          {markNumbers(mark.mark)}
        </p>
      )}
      {corners === undefined && problem === undefined ? (
        <p className="quiet">
          Corners are those of the flank itself: between tip edge and fillet. The toe is its inner end, nearer the
          middle of the ring gear: toe and heel exchanged would turn the mark round.
        </p>
      ) : undefined}
      {corners === undefined ? undefined : (
        <p className="quiet">
          Round handles are the corners. The square ones lie on the edges between them: pull one onto the flank’s own
          edge where it bends.
        </p>
      )}
    </Words>
  );
}

const titleOf = (said: Said): string => {
  if (cornersOf(said) === undefined) return nextCorner(said.corners.length);
  return said.fromEmpty ? 'The mark as it was outlined' : 'What the photo shows';
};

/** What was tapped and brushed when this mark was read earlier. */
function saidBefore(draft: MarkDraft, photo: string, place: number, flank: PhotoFor['flank']): Said {
  const read = readFrom(draft, place, flank);
  if (read?.photo !== photo) return nothingSaid;
  return { corners: [...read.corners], bends: read.bends, brushed: read.brushed, fromEmpty: read.fromEmpty === true };
}

interface CornersProps {
  readonly said: Said;
  readonly size: { readonly width: number; readonly height: number } | undefined;
  readonly onChange: (said: Said) => void;
}

/** Beside the title: corners anew, or laid in the middle to be moved with the arrow keys; bends as the bench finds them. */
const Corners = ({ said, size, onChange }: CornersProps) => (
  <div className="reading__tools">
    {said.bends === undefined ? undefined : (
      <Button look="quiet" onPress={() => onChange({ ...said, bends: undefined })}>
        Find the edges again
      </Button>
    )}
    {said.corners.length > 0 ? (
      <Button look="quiet" onPress={() => onChange(nothingSaid)}>
        Tap the corners anew
      </Button>
    ) : (
      <Button
        look="quiet"
        disabled={size === undefined}
        onPress={() => {
          if (size !== undefined) onChange({ ...said, corners: inTheMiddle(size) });
        }}
      >
        Lay them in the middle
      </Button>
    )}
  </div>
);

const inTheMiddle = ({ width, height }: { readonly width: number; readonly height: number }): Said['corners'] => [
  [width * 0.25, height * 0.62],
  [width * 0.25, height * 0.38],
  [width * 0.75, height * 0.38],
  [width * 0.75, height * 0.62],
];
