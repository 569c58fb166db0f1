import { useEffect, useState } from 'react';
import { mostHeard } from '../../../../shared/contract/gauges.ts';
import type { Heard } from '../../../../shared/gauges/heard.ts';
import type { CaptureEvent } from '../../../../shared/job/captures/capture.ts';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import { type CaptureSettings, partsOf } from '../../../../shared/job/records/measurement.ts';
import { type Begun, onFound, runSoFar, useRun } from '../../../live/run.ts';
import { ask } from '../../../stores/ask.ts';
import { useBenchSeen } from '../../../stores/bench.ts';
import type { CheckProps } from './checkProps.ts';

/** What was begun, how it was taken, and what it came to. */
export interface FoundBegun extends Begun {
  readonly settings: CaptureSettings;
}

export interface Looked {
  readonly found: FoundBegun | undefined;
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
    void begunOf({ assembly: assembly.id, check: check.id }).then(
      (found) => there && setLooked((before) => ({ found, look: (before?.look ?? 0) + 1 })),
    );
    return () => void (there = false);
  }, [assembly.id, check.id, arrivals]);
  return looked;
}

/** A backlash comes with its stations; what else was begun is heard again, each part of it. */
async function begunOf(which: { readonly assembly: string; readonly check: CheckId }): Promise<FoundBegun | undefined> {
  const found = (await ask('unfinished.find', which, unsaid))?.found;
  if (found === undefined || found.settings.kind === 'backlash') return found;
  const { gauge } = found.stretch;
  const heard: Heard[][] = [];
  for (const { from, to } of partsOf(found.stretch)) {
    const part = await ask('gauges.heard', { gauge, from, to }, unsaid);
    // A ride longer than one answer holds is a gauge that was left alone; it is taken anew.
    if (part === undefined || part.length >= mostHeard) return undefined;
    heard.push(part);
  }
  return { ...found, heard };
}

const notedKinds: ReadonlySet<CaptureEvent['kind']> = new Set([
  'station-done',
  'station-refused',
  'taken-anew',
  'station',
  'turn',
  'let-go',
  'again',
]);

/** Notes with each station, turn and pull how far the measurement has come, so that nothing of it is lost with the screen or the bench. */
export function useNoted({ assembly, check }: Which): void {
  useEffect(
    () =>
      onFound(({ kind }) => {
        if (!notedKinds.has(kind)) return;
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
