import { useEffect, useState } from 'react';
import type { UnfinishedFound } from '../../../../shared/contract/unfinished.ts';
import { onFound, runSoFar, useRun } from '../../../live/run.ts';
import { ask } from '../../../stores/ask.ts';
import { useBenchSeen } from '../../../stores/bench.ts';
import type { CheckProps } from './checkProps.ts';

interface Looked {
  readonly found: UnfinishedFound | undefined;
  /** Grows with each look, so that what is found then is gone on with. */
  readonly look: number;
}

type Which = Pick<CheckProps, 'assembly' | 'check'>;
const whichOf = ({ assembly, check }: Which) => ({ assembly: assembly.id, check: check.id });

/** The bench is out of reach and says so on its own line; what was noted before still holds. */
const unsaid = (): void => undefined;

/**
 * What was begun of this check and not recorded, looked up when its screen opens and each time the bench is reached
 * again: it may have been killed, and knows what it has on disk. Undefined until it has answered.
 */
export function useUnfinished({ assembly, check }: Which): Looked | undefined {
  const [looked, setLooked] = useState<Looked>();
  const arrivals = useBenchSeen((seen) => seen.arrivals);
  useEffect(() => {
    let there = true;
    // A measurement that is held waits to be recorded with all it has.
    if (arrivals === 0 || useRun.getState().run?.held === true) return undefined;
    void ask('unfinished.find', { assembly: assembly.id, check: check.id }, unsaid).then(
      (answer) => there && setLooked((before) => ({ found: answer?.found, look: (before?.look ?? 0) + 1 })),
    );
    return () => void (there = false);
  }, [assembly.id, check.id, arrivals]);
  return looked;
}

const stationKinds: ReadonlySet<string> = new Set(['station-done', 'station-refused', 'taken-anew']);

/** Notes with each station how far the measurement has come, so that nothing of it is lost with the screen or the bench. */
export function useNoted({ assembly, check }: Which): void {
  useEffect(
    () =>
      onFound(({ kind }) => {
        if (!stationKinds.has(kind)) return;
        const which = { assembly: assembly.id, check: check.id };
        const soFar = runSoFar();
        if (soFar === undefined) void ask('unfinished.forget', which, unsaid);
        else void ask('unfinished.note', { ...which, stretch: soFar.stretch, settings: soFar.settings }, unsaid);
      }),
    [assembly.id, check.id],
  );
}

/** Puts aside what was taken, for good. */
export const forgetUnfinished = async (which: Which): Promise<void> =>
  void (await ask('unfinished.forget', whichOf(which)));
