import { beforeAll, describe, expect, it } from 'vitest';
import { faultNamed, type FaultName } from '../../../hardware-sim/faults/named.ts';
import { seeded } from '../../../hardware-sim/seeded.ts';
import { isNone } from '../../../src/shared/basics/result.ts';
import { measureThrough, type Mishap, type MishapRun, spoiltBy } from '../../support/mishapRun.ts';

const fault = (name: FaultName, for_s?: number): Mishap => spoiltBy(faultNamed(name, seeded(11)), for_s);
const wait = (seconds: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, seconds * 1000));

/**
 * The table in docs/gauges.md, row by row, for what a pseudo-terminal can carry: what happens in mid-measurement, what the
 * journal then holds, and the states shown. Whatever it is, no station may get a wrong number.
 */
const mishaps: Readonly<
  Record<string, { readonly happens: Mishap; readonly journal?: string[]; readonly shown?: string }>
> = {
  nothing: { happens: () => undefined },
  'unplugged and plugged in again': {
    happens: async (indicator) => {
      await indicator.mishap('unplug');
      await wait(0.4);
      await indicator.mishap('replug');
    },
    journal: ['gone', 'live'],
    shown: 'gone',
  },
  'unit switched at the gauge': {
    happens: (indicator) => indicator.mishap('unit'),
    journal: ['unit', 'unlike-the-others'],
  },
  'zero pressed': { happens: (indicator) => indicator.mishap('zero') },
  'low battery, then well': {
    happens: async (indicator) => {
      await indicator.mishap('battery');
      await wait(0.3);
      await indicator.mishap('well');
    },
    journal: ['no-number'],
  },
  'error word, then well': {
    happens: async (indicator) => {
      await indicator.mishap('error');
      await wait(0.3);
      await indicator.mishap('well');
    },
    journal: ['gauge-error'],
  },
  'half lines': { happens: fault('half') },
  'glued lines': { happens: fault('glued'), journal: ['several-numbers'] },
  'doubled lines': { happens: fault('doubled') },
  'split lines': { happens: fault('split') },
  'a frozen value': { happens: fault('frozen', 0.8) },
  silence: { happens: fault('silence', 1.8), journal: ['silent', 'sending'], shown: 'silent' },
  'a flood': { happens: fault('flood') },
  'an endless line': { happens: fault('endless'), journal: ['endless'] },
  'binary noise': { happens: fault('noise'), journal: ['noise'] },
  'wrong baud rate': { happens: fault('wrong-baud'), journal: ['endless'] },
  'wrong parity': { happens: fault('wrong-parity'), journal: ['noise'] },
};

/** Between a measured station and the twin's truth: resolution, noise and hysteresis of the simulated indicator. */
const tolerance_mm = 0.01;

describe.skipIf(process.platform !== 'linux')('in the middle of a measurement', () => {
  const runs = new Map<string, MishapRun>();
  beforeAll(async () => {
    // A few at a time: each waits for its own hand, but all their journals share one disk.
    const waiting = Object.entries(mishaps);
    const oneAfterTheOther = async (): Promise<void> => {
      for (let next = waiting.shift(); next !== undefined; next = waiting.shift())
        runs.set(next[0], await measureThrough(next[1].happens));
    };
    await Promise.all(Array.from({ length: 6 }, oneAfterTheOther));
  });

  it.each(Object.entries(mishaps))('%s: no station gets a wrong number, and it reads on by itself', (name, mishap) => {
    const run = runs.get(name);
    if (run === undefined) throw new Error('it was not run');
    const { result, truths } = run;
    if (typeof result !== 'string') {
      const truth = truths.map(({ held_mm }) => held_mm);
      for (const [at, station] of result.stations.entries()) {
        if (isNone(station.value_mm)) continue;
        const value = station.value_mm;
        // A station that was refused may have been counted twice: a number must be that of a station there is.
        const nearest = Math.min(...truth.map((each) => Math.abs(each - value)));
        expect(nearest, `station ${at + 1}: ${value} of ${truth.join(', ')}`).toBeLessThan(tolerance_mm);
      }
    }
    expect([...run.rows]).toEqual(expect.arrayContaining(mishap.journal ?? []));
    if (mishap.shown !== undefined) expect([...run.states]).toContain(mishap.shown);
    expect(run.readingsAfter).toBeGreaterThanOrEqual(20);
  });

  it('measures all three stations where nothing happens', () => {
    const result = runs.get('nothing')?.result;
    if (result === undefined || typeof result === 'string') throw new Error('not measured');
    expect(result.stations.map(({ value_mm }) => isNone(value_mm))).toEqual([false, false, false]);
  });
});
