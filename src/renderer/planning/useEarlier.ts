import { useEffect, useMemo, useState } from 'react';
import type { Experience } from '../../shared/axle/plan/experience.ts';
import { type EarlierBuild, earlierBuilds } from '../../shared/job/experience/earlier.ts';
import { type Lessons, recall } from '../../shared/job/experience/recall.ts';
import type { Build } from '../../shared/job/records/build.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import { ask } from '../stores/ask.ts';
import { useSession } from '../stores/session.ts';
import { drawLessons, lessonsDrawn } from './lessons.ts';

/** Earlier builds beside the one on the stand: which there are, what they teach, and what that comes to. */
export interface Earlier {
  /** Undefined while they are being read. */
  readonly builds: readonly EarlierBuild[] | undefined;
  readonly lessons: Lessons;
  readonly on: boolean;
  readonly leftOut: readonly string[];
  /** What counts, whether or not it is switched on. */
  readonly experience: Experience | undefined;
  /** Whether everything there is has been read and drawn. */
  readonly ready: boolean;
}

export function useEarlier(now: Build): Earlier {
  const [read, setRead] = useState<{ readonly of: string; readonly notebooks: readonly Notebook[] }>();
  const [lessons, setLessons] = useState<Lessons>(lessonsDrawn);
  const on = useSession(({ earlierBuilds: counts }) => counts);
  const leftOut = useSession((session) => session.earlierLeftOut);
  useEffect(() => {
    let gone = false;
    void ask('experience.read', { build: now.id }).then((notebooks) => {
      if (!gone) setRead({ of: now.id, notebooks: notebooks ?? [] });
    });
    return () => void (gone = true);
  }, [now.id]);
  const builds = useMemo(
    () => (read === undefined || read.of !== now.id ? undefined : earlierBuilds(now, read.notebooks)),
    [now, read],
  );
  useEffect(() => (builds === undefined ? undefined : drawLessons(builds, setLessons)), [builds]);
  const ready = builds?.every(({ state }) => lessons.has(state)) === true;
  const experience = useMemo(
    () => (builds === undefined || !ready ? undefined : recall(builds, lessons, leftOut)),
    [builds, ready, lessons, leftOut],
  );
  return { builds, lessons, on, leftOut, experience, ready };
}
