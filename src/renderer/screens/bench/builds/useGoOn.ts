import { useEffect, useState } from 'react';
import { type Build, currentAssembly, readNotebook } from '../../../../shared/job/records/build.ts';
import { checkOf } from '../../../../shared/job/checks/checks.ts';
import { type Next, nextStep } from '../../../../shared/job/checks/readiness.ts';
import type { NextAction } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { useBuilds } from '../../../stores/builds.ts';
import { go } from '../../../stores/route.ts';
import { goOnWords, nextWords } from '../../../words/next.ts';

/** The build that was worked on last, and its next step. */
interface GoOn {
  readonly build: Build;
  readonly next: NextAction;
}

interface Stood {
  readonly build: Build;
  readonly step: Next;
}

/** The next step; where a backlash was broken off, that one. */
async function whereItStood(id: string): Promise<Stood | undefined> {
  const notebook = await ask('builds.read', { build: id });
  if (notebook === undefined) return undefined;
  const build = readNotebook(id, notebook.entries);
  const assembly = currentAssembly(build);
  const begun =
    assembly === undefined ? undefined : await ask('unfinished.find', { assembly: assembly.id, check: 'backlash' });
  const step: Next =
    assembly === undefined || begun?.found === undefined
      ? nextStep(build)
      : { do: 'check', assembly: assembly.id, check: checkOf('backlash') };
  return { build, step };
}

/** After a restart the job goes on where it stood: the build worked on last, unless its certificate is issued. */
export function useGoOn(): GoOn | undefined {
  const last = useBuilds((seen) => seen.builds?.find(({ lies }) => lies === 'on-the-bench'));
  const [stood, setStood] = useState<Stood>();
  const [id, at] = [last?.id, last?.lastEntryAt];
  useEffect(() => {
    let there = true;
    if (id === undefined || at === undefined) return undefined;
    void whereItStood(id).then((found) => there && setStood(found));
    return () => void (there = false);
  }, [id, at]);
  if (stood === undefined || stood.build.id !== id) return undefined;
  const { build, step } = stood;
  if (build.certificates.some(({ complete }) => complete)) return undefined;
  const { route } = nextWords(build, step);
  return { build, next: { words: `Go on: ${goOnWords(build, step)}`, run: () => go(route) } };
}
