import { useState } from 'react';
import type { PhotoWay } from '../../../../shared/job/records/photo.ts';
import type { Problem } from '../../../../shared/basics/result.ts';
import { keepTaken, takePhoto, type PhotoTaken, type Unkept } from './take.ts';

/** A photo on its way in: from wherever it comes, shrunk, stored with its assembly, then opened. */
interface Taking {
  readonly busy: boolean;
  readonly problem: Problem | undefined;
  readonly onProblem: (problem: Problem) => void;
  /** Gives whether the photo was stored. */
  readonly take: (file: Blob, from: PhotoWay) => Promise<boolean>;
  /** Stores a photo that was shrunk and could not be stored just then. */
  readonly keep: (() => void) | undefined;
}

export function useTaking(assembly: string, open: (photo: string) => void): Taking {
  const [busy, setBusy] = useState(false);
  const [problem, onProblem] = useState<Problem>();
  const [unkept, setUnkept] = useState<Unkept>();
  const settle = (taken: PhotoTaken): boolean => {
    setBusy(false);
    if ('photo' in taken) {
      open(taken.photo.sha256);
      return true;
    }
    onProblem(taken.problem);
    setUnkept(taken.unkept);
    return false;
  };
  const take = async (file: Blob, from: PhotoWay): Promise<boolean> => {
    setBusy(true);
    onProblem(undefined);
    return settle(await takePhoto(assembly, file, from));
  };
  const keep = unkept === undefined ? undefined : () => void keepTaken(assembly, unkept).then(settle);
  return { busy, problem, onProblem, take, keep };
}
