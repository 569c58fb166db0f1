import type { Arrival } from '../../../../shared/contract/photos.ts';
import type { PhotoWay } from '../../../../shared/job/records/photo.ts';
import { isNone, type Problem } from '../../../../shared/basics/result.ts';
import { Button } from '../../../parts/Button.tsx';
import { FolderChoice } from '../../../parts/FolderChoice.tsx';
import { choosePhotoFolder, fetchArrival, settleArrival, usePhotoFolder } from '../../../stores/photos.ts';
import { timeWords } from '../../../words/days.ts';

interface FolderSourceProps {
  readonly onTaken: (file: Blob, from: PhotoWay) => Promise<boolean>;
  readonly onProblem: (problem: Problem) => void;
}

/** The folder a phone puts photos into: what has come, and which folder it is. */
export function FolderSource({ onTaken, onProblem }: FolderSourceProps) {
  const state = usePhotoFolder((seen) => seen.state);
  if (state === undefined) return undefined;
  const { folder, waiting, problem } = state;
  const take = async (arrival: Arrival): Promise<void> => {
    const file = await fetchArrival(arrival, onProblem);
    if (file !== undefined && (await onTaken(file, 'folder'))) await settleArrival(arrival, 'kept');
  };
  return (
    <section className="sources__part" aria-label="Folder for photos from a phone">
      <h2 className="sources__title">From a phone</h2>
      <p className="quiet">{problem?.sentence ?? folderWords(isNone(folder) ? undefined : folder, waiting.length)}</p>
      <ul className="arrivals">
        {waiting.map((arrival) => (
          <li key={`${arrival.file} ${arrival.modified_ms}`} className="arrivals__one">
            <span className="arrivals__name">
              {arrival.file}
              <span className="quiet"> {timeWords(new Date(arrival.modified_ms).toISOString())}</span>
            </span>
            <Button onPress={() => void take(arrival)} more={arrival.file}>
              Take it
            </Button>
            <Button look="quiet" onPress={() => void settleArrival(arrival, 'put-aside')} more={arrival.file}>
              Put aside
            </Button>
          </li>
        ))}
      </ul>
      <FolderChoice
        label="Folder for photos"
        folder={isNone(folder) ? '' : folder}
        words={choiceWords}
        onChoose={choosePhotoFolder}
      />
    </section>
  );
}

const folderWords = (folder: string | undefined, waiting: number): string => {
  if (folder === undefined) return 'The bench can watch a folder that a phone puts its photos into.';
  return waiting === 0
    ? `Waiting for photos in ${folder}. Only what comes from now on is offered; files there are only read.`
    : `In ${folder}:`;
};

const choiceWords = {
  first: 'Watch a folder',
  other: 'Change the folder',
  choose: 'Watch it',
  none: 'Stop watching',
} as const;
