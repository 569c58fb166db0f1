import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoAxle } from '../../hardware-sim/axle/demo.ts';
import type { Fault } from '../../hardware-sim/faults/fault.ts';
import { type RockTruth, type SimulatedIndicator, simulatedGauges } from '../../hardware-sim/gauges/simulated.ts';
import { steadyHand } from '../../hardware-sim/hands/hand.ts';
import { noFault } from '../../hardware-sim/faults/fault.ts';
import { heard } from '../../src/main/bench/gaugeNews.ts';
import { systemClock } from '../../src/main/clock.ts';
import { createGauges } from '../../src/main/gauges/gauges.ts';
import { openJournal } from '../../src/main/journal/journal.ts';
import { openDatabase } from '../../src/main/store/database.ts';
import type { GaugeState } from '../../src/shared/contract/gauges.ts';
import { startCapture, streamItem } from '../../src/shared/job/captures/capture.ts';
import type { MeasuredResult } from '../../src/shared/job/records/measurement.ts';

export interface MishapRun {
  readonly truths: readonly RockTruth[];
  /** The result; or why the measurement ended. */
  readonly result: Extract<MeasuredResult, { kind: 'backlash' }> | string;
  /** Kinds of the gauge's journal rows, each once, and the reasons of those that could not be read. */
  readonly rows: ReadonlySet<string>;
  readonly states: ReadonlySet<GaugeState['state']>;
  /** Readings that still came when all was over; it is waited for twenty. */
  readonly readingsAfter: number;
}

export type Mishap = (indicator: SimulatedIndicator) => Promise<void> | void;

const pause = (seconds: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, seconds * 1000));
export const spoiltBy =
  (fault: Fault, for_s = 0.4): Mishap =>
  async (indicator) => {
    indicator.setFault(fault);
    await pause(for_s);
    indicator.setFault(noFault);
  };

/**
 * Backlash at three stations of the axle twin, measured live through pseudo-terminal, link, line format and journal, while
 * something happens to the gauge or its cable in the middle of it.
 */
export async function measureThrough(mishap: Mishap, seed = 7): Promise<MishapRun> {
  const axle = demoAxle(seed);
  const standing = axle.assemble(axle.thirdTrial);
  const sim = await simulatedGauges({ axle: () => standing, seed, rate_Hz: 100, kind: 'pty' });
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-test-'));
  const database = openDatabase(folder, systemClock);
  if (!database.ok) throw new Error(database.problem.sentence);
  const journal = openJournal(database.value);
  const gauge = { id: 'a', label: 'Indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } } as const;
  const settings = {
    kind: 'backlash',
    basis: { direction: 'along-rotation', at: 'heel' },
    stations: 3,
    nextBy: 'itself',
  } as const;
  const capture = startCapture(settings, gauge);
  if (!capture.ok) throw new Error(capture.problem.sentence);
  const states = new Set<GaugeState['state']>();
  let ended: string | undefined;
  let count = 0;
  const gauges = createGauges({
    journal,
    clock: systemClock,
    onReadings: (readings) => {
      for (const reading of readings) {
        const item = streamItem(heard(reading), 'backlash', gauge);
        if (!item.ok) ended ??= item.problem.kind;
        else if (item.value !== undefined) {
          count += 1;
          if (ended === undefined) capture.value.step(item.value);
        }
      }
    },
    onState: ({ state }) => states.add(state),
  });
  await gauges.connect({ id: 'a', link: sim.indicator.link, unit: 'mm' });
  await pause(0.3);
  const rocking = sim.indicator.rock(3, { hand: steadyHand('fast'), rocks: 5 });
  await pause(1.6);
  await mishap(sim.indicator);
  const truths = await rocking;
  await pause(0.6);
  const before = count;
  // However busy this machine is: a gauge that is read again gives some readings in the end.
  const isReadAgain = (): boolean => count >= before + 20;
  for (let waited_s = 0; waited_s < 10 && !isReadAgain(); waited_s += 0.05) await pause(0.05);
  const readingsAfter = count - before;
  const result = capture.value.finish();
  const rows = new Set<string>();
  for (const row of journal.stretch('a', 1, journal.last())) rows.add(row.kind === 'unreadable' ? row.note : row.kind);
  await gauges.close();
  journal.close();
  database.value.close();
  await sim.end();
  rmSync(folder, { recursive: true, force: true });
  if (result.kind !== 'backlash') throw new Error('backlash was asked for');
  return { truths, result: ended ?? result, rows, states, readingsAfter };
}
