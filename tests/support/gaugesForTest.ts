import { setTimeout as pause } from 'node:timers/promises';
import { onTestFinished } from 'vitest';
import { type Line, type LineKind, serveLine } from '../../hardware-sim/lines/line.ts';
import { systemClock } from '../../src/main/clock.ts';
import { createGauges, type Gauges, type GaugesOptions } from '../../src/main/gauges/gauges.ts';
import type { GaugeState } from '../../src/shared/contract/gauges.ts';
import type { GaugeReading } from '../../src/shared/gauges/gaugeReading.ts';
import { journalForTest, type Opened } from './openJournal.ts';
import { latin1 } from './writeLine.ts';

export interface TestGauges extends Opened {
  readonly gauges: Gauges;
  readonly readings: GaugeReading[];
  readonly states: GaugeState[];
}

/** Gauges, journal and database as the bench has them, with everything they tell kept. */
export function gaugesForTest(options: Partial<GaugesOptions> = {}): TestGauges {
  const opened = journalForTest();
  const readings: GaugeReading[] = [];
  const states: GaugeState[] = [];
  const gauges = createGauges({
    journal: opened.journal,
    clock: systemClock,
    onReadings: (more) => readings.push(...more),
    onState: (state) => states.push(state),
    ...options,
  });
  onTestFinished(() => gauges.close());
  return { ...opened, gauges, readings, states };
}

/** A simulated cable on a real pseudo-terminal or TCP port. */
export async function lineForTest(kind?: LineKind): Promise<Line> {
  const line = await serveLine(kind === undefined ? {} : { kind });
  onTestFinished(() => line.end());
  return line;
}

export const say = (line: Line, text: string): Promise<void> => line.write(latin1(text));

/** Waits until something is so; says after how many milliseconds. It is the test's own time limit that ends a vain wait. */
export async function until(isSo: () => boolean): Promise<number> {
  const began = performance.now();
  while (!isSo()) await pause(2);
  return performance.now() - began;
}
