import { useEffect } from 'react';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { CaptureSettings } from '../../../../shared/job/records/measurement.ts';
import type { SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { pedalAgain } from '../../../commands/registry.ts';
import { useCommand } from '../../../commands/useCommand.ts';
import { useCues } from '../../../cues/useCues.ts';
import { useAwake } from '../../../live/useAwake.ts';
import { type Begun, restartRun, useRun } from '../../../live/run.ts';
import type { StreamKind } from '../../../stores/gauges.ts';
import { showProblem } from '../../../stores/problems.ts';
import { pressPedal } from './pedal.ts';
import { useGauge } from './useGauge.ts';
import { useRunOn } from './useRunOn.ts';

export interface Measuring {
  readonly gauge: Gauge | undefined;
  readonly all: readonly Gauge[];
  readonly choose: (id: string) => void;
  /** The gauge is there and sends. */
  readonly live: boolean;
  readonly next: () => void;
  readonly again: () => void;
}

const kindOf: Readonly<Record<CaptureSettings['kind'], StreamKind>> = {
  backlash: 'indicator',
  runout: 'indicator',
  torque: 'torque',
  play: 'indicator',
  spread: 'indicator',
};

interface From {
  /** Another number starts the measurement afresh. */
  readonly round?: number;
  /** What was taken before it was broken off. */
  readonly begun?: Begun | undefined;
  /** The gauge that was chosen on the way here. */
  readonly begin?: string | undefined;
}

/**
 * Everything a live measurement has in common: its gauge, the cues, and the pedal that takes it again. The run itself
 * is read where it is drawn, so that a growing number does not draw the whole screen anew.
 */
export function useMeasuring(
  settings: CaptureSettings,
  sheet: SpecSheet | undefined,
  { round = 0, begun, begin }: From = {},
): Measuring {
  const { gauge, all, live, choose } = useGauge(kindOf[settings.kind], begun?.stretch.gauge ?? begin);
  useRunOn(settings, gauge, { round, begun: gauge?.id === begun?.stretch.gauge ? begun : undefined });
  useCues(sheet);
  useAwake();
  const problem = useRun(({ run }) => run?.problem);
  useEffect(() => {
    if (problem !== undefined) showProblem(problem);
  }, [problem]);
  const press = (pedal: 'next' | 'again') => (): void => {
    if (gauge !== undefined) void pressPedal(gauge.id, pedal);
  };
  const again = (): void => {
    if (useRun.getState().run?.held === true) restartRun();
    else press('again')();
  };
  useCommand(pedalAgain, 'Take it again', live ? again : undefined);
  return { gauge, all, choose, live, next: press('next'), again };
}
