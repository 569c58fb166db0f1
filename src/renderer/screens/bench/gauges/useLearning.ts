import { useState } from 'react';
import type { AttemptHeard, LearnedAnswer } from '../../../../shared/contract/learning.ts';
import type { LineFormat } from '../../../../shared/gauges/lineFormat.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { ask } from '../../../stores/ask.ts';
import { theBench } from '../../../stores/client.ts';
import { loadGauges } from '../../../stores/gauges.ts';

/** How long the bench listens with each setting, in seconds. */
export const learnFor_s = 8;

export type LearnPhase = 'ready' | 'listening' | 'learned' | 'confirm';

/** The learning of a gauge's lines, as far as it has come. */
export interface Learning {
  readonly phase: LearnPhase;
  /** The settings that were tried, with what was heard under each. */
  readonly attempts: readonly AttemptHeard[];
  readonly learned: LearnedAnswer | undefined;
  readonly listen: () => Promise<void>;
  /** Writes a format into the gauge's record and plugs it in again, to be held against a known amount. */
  readonly keep: (format: LineFormat, link?: string) => Promise<void>;
}

export function useLearning(gauge: Gauge): Learning {
  const [phase, setPhase] = useState<LearnPhase>('ready');
  const [attempts, setAttempts] = useState<readonly AttemptHeard[]>([]);
  const [learned, setLearned] = useState<LearnedAnswer>();
  const listen = async (): Promise<void> => {
    setPhase('listening');
    setAttempts([]);
    const stop = theBench().hear('learning', (attempt) => setAttempts((before) => withAttempt(before, attempt)));
    const found = await ask('gauges.learn', { gauge: gauge.id, link: gauge.link ?? '', seconds: learnFor_s });
    stop();
    setLearned(found);
    setPhase(found === undefined ? 'ready' : 'learned');
  };
  const keep = async (format: LineFormat, link = gauge.link): Promise<void> => {
    const saved = await ask('gauges.save', { gauge: { ...gauge, format, ...(link === undefined ? {} : { link }) } });
    if (saved === undefined) return;
    await ask('gauges.plug-in', { gauge: gauge.id });
    await loadGauges();
    setPhase('confirm');
  };
  return { phase, attempts, learned, listen, keep };
}

const withAttempt = (before: readonly AttemptHeard[], attempt: AttemptHeard): readonly AttemptHeard[] => {
  const open = before.at(-1);
  const isItsEnd = attempt.heard !== undefined && open?.link === attempt.link && open.heard === undefined;
  return isItsEnd ? [...before.slice(0, -1), attempt] : [...before, attempt];
};
