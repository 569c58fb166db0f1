import { onTestFinished, describe, expect, it } from 'vitest';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { readPages } from '../../../src/main/journal/readRows.ts';
import { openDatabase } from '../../../src/main/store/database.ts';
import { streams } from '../../performance/answers/inputs.ts';
import { benchInNewFolder, valueOf } from '../../support/bench/open.ts';
import { type Journaled, journaled } from '../../support/records/journaled.ts';
import { settleAll } from '../../support/settleAll.ts';

const by = 'A. Tester';
const linesOf = (name: string) => streams.find((stream) => stream.name === name)?.lines ?? [];
const rocking = linesOf('backlash-0.2');
const pulling = linesOf('torque-0.8');
const backlash = {
  kind: 'backlash',
  basis: { direction: 'along-rotation', at: 'heel' },
  nextBy: 'press',
} as const;
const torque = { kind: 'torque', basis: { basis: 'running', seal: 'out', bearings: 'set-up' } } as const;

/** A bench with a build in its first trial, on records whose journal holds readings. */
async function inTrial({ folder }: Journaled) {
  const bench = benchInNewFolder(undefined, folder);
  onTestFinished(async () => void (await bench.close()));
  const { id: build } = valueOf(await bench.answers['builds.start']({ title: 'Rear axle', technician: by }));
  const written = valueOf(
    await bench.answers['builds.write']({
      build,
      by,
      deed: { kind: 'assembled', assembly: { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false } },
    }),
  );
  const assembly = written.entries.at(-1)?.id ?? '';
  return { bench, build, assembly };
}

/** Readings idle for weeks are thinned; how many rows of a stretch are left afterwards. */
function rowsAfterThinning({ folder, stretch }: Journaled): number {
  const database = valueOf(openDatabase(folder, systemClock));
  settleAll(database, Date.UTC(2030, 0, 1));
  const count = [...readPages(database.sql, undefined, stretch.from, stretch.to, false)].length;
  database.close();
  return count;
}

describe('a measurement that is recorded', () => {
  it('keeps its readings whole for ever, where others are thinned', async () => {
    const recorded = await journaled(rocking, 'indicator');
    const { bench, build, assembly } = await inTrial(recorded);
    const settings = backlash;
    valueOf(
      await bench.answers['measurements.record']({
        build,
        by,
        assembly,
        check: 'backlash',
        stretch: recorded.stretch,
        settings,
      }),
    );
    await bench.close();
    expect(rowsAfterThinning(recorded)).toBe(rocking.length);

    const idle = await journaled(rocking, 'indicator');
    expect(rowsAfterThinning(idle)).toBeLessThan(rocking.length);
  });

  it('numbers its stations from one, with parts that add up to the uncertainty', async () => {
    const recorded = await journaled(rocking, 'indicator');
    const { bench } = await inTrial(recorded);
    const { result } = valueOf(
      await bench.answers['measurements.keep-loose']({ stretch: recorded.stretch, settings: backlash }),
    );
    if (result.kind !== 'backlash') throw new Error(result.kind);
    expect(result.stations.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
    for (const { u_mm, parts } of result.stations)
      expect(Math.hypot(...parts.map(({ u }) => u))).toBeCloseTo(Number(u_mm), 9);
  });

  it('is recorded once, whoever else listened to the same gauge, and again where it was struck', async () => {
    const recorded = await journaled(rocking, 'indicator');
    const { bench, build, assembly } = await inTrial(recorded);
    const record = (stretch = recorded.stretch) =>
      bench.answers['measurements.record']({ build, by, assembly, check: 'backlash', stretch, settings: backlash });
    const first = valueOf(await record());
    // The same stretch: an answer that was lost, or a second window that heard what the first one heard.
    expect(valueOf(await record()).entries).toEqual(first.entries);
    const { from, to, gauge } = recorded.stretch;
    expect(await record({ gauge, from: from + 1, to })).toMatchObject({
      ok: false,
      problem: { kind: 'recorded-already', sentence: expect.stringContaining(by) },
    });
    expect(await entriesOf(bench, build)).toBe(first.entries.length);
    valueOf(await bench.answers['builds.undo']({ build, by }));
    expect(valueOf(await record({ gauge, from: from + 1, to })).entries).toHaveLength(first.entries.length + 2);
  });

  it('is refused where no reading lies in its stretch', async () => {
    const recorded = await journaled(rocking, 'indicator');
    const { bench, build, assembly } = await inTrial(recorded);
    const { gauge, to } = recorded.stretch;
    // The rows behind the readings tell that the bench was opened again: rows, but no reading.
    const stretch = { gauge, from: to + 1, to: to + 1 };
    const answer = await bench.answers['measurements.record']({
      build,
      by,
      assembly,
      check: 'backlash',
      stretch,
      settings: backlash,
    });
    expect(answer).toMatchObject({ ok: false, problem: { kind: 'nothing-measured' } });
  });

  it('does not stand for a check of another kind', async () => {
    const recorded = await journaled(pulling, 'torque');
    const { bench, build, assembly } = await inTrial(recorded);
    const answer = await bench.answers['measurements.record']({
      build,
      by,
      assembly,
      check: 'backlash',
      stretch: recorded.stretch,
      settings: torque,
    });
    expect(answer).toMatchObject({ ok: false, problem: { kind: 'wrong-check' } });
    expect(await entriesOf(bench, build)).toBe(2);
  });

  it('taken without a build stays loose until a build really has it', async () => {
    const recorded = await journaled(rocking, 'indicator');
    const { bench, build, assembly } = await inTrial(recorded);
    const loose = valueOf(
      await bench.answers['measurements.keep-loose']({ stretch: recorded.stretch, settings: backlash }),
    );
    const adopt = (into: string) =>
      bench.answers['measurements.adopt']({ build, by, loose: loose.id, assembly: into, check: 'backlash' });
    const refused = await adopt('no-such-assembly');
    expect(refused).toMatchObject({ ok: false, problem: { kind: 'misplaced' } });
    expect(valueOf(await bench.answers['measurements.loose']({}))[0]).not.toHaveProperty('keptIn');
    valueOf(await adopt(assembly));
    expect(valueOf(await bench.answers['measurements.loose']({}))[0]).toHaveProperty('keptIn', build);
  });
});

describe('readings that no measurement rests on', () => {
  const day_ms = 24 * 3600 * 1000;
  const rowsAfterOpening = async (age_ms: number): Promise<number> => {
    const { folder, stretch } = await journaled(rocking, 'indicator', Date.now() - age_ms);
    await benchInNewFolder(undefined, folder).close();
    const database = valueOf(openDatabase(folder, systemClock));
    onTestFinished(() => database.close());
    // A page of the journal is settled when the last of its rows is old: the later run's row stands in the way of so few.
    database.sql.exec(`DELETE FROM journal WHERE seq > ${stretch.to}`);
    settleAll(database, Date.now() - 7 * day_ms);
    return [...readPages(database.sql, undefined, stretch.from, stretch.to, false)].length;
  };

  it('stay as they came for a week, and are thinned after that', async () => {
    expect(await rowsAfterOpening(6 * day_ms)).toBe(rocking.length);
    expect(await rowsAfterOpening(8 * day_ms)).toBeLessThan(rocking.length);
  });
});

describe('a build', () => {
  it('cannot lose its start', async () => {
    const { bench, build } = await inTrial(await journaled([], 'indicator'));
    const { entries } = valueOf(await bench.answers['builds.read']({ build }));
    const deed = { kind: 'struck', entry: entries[0]?.id ?? '' } as const;
    expect(await bench.answers['builds.write']({ build, by, deed })).toMatchObject({
      ok: false,
      problem: { kind: 'misplaced', sentence: 'The start of a build cannot be struck through.' },
    });
    expect(await bench.answers['builds.undo']({ build, by })).toMatchObject({ ok: true });
    expect(await bench.answers['builds.undo']({ build, by })).toMatchObject({ ok: false });
  });
});

const entriesOf = async (bench: BenchService, build: string): Promise<number> =>
  valueOf(await bench.answers['builds.read']({ build })).entries.length;
