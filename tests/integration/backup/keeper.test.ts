import { mkdirSync, readdirSync, rmdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openKeeper, type KeeperOptions } from '../../../src/main/backup/keeper.ts';
import { openBench } from '../../../src/main/bench/bench.ts';
import { type Clock, systemClock } from '../../../src/main/clock.ts';
import { openBackupChoices } from '../../../src/main/store/backupChoice.ts';
import { openDatabase } from '../../../src/main/store/database.ts';
import { openIdentity } from '../../../src/main/store/identity.ts';
import { openNotebooks } from '../../../src/main/store/notebooks.ts';
import type { BackupState } from '../../../src/shared/contract/backups.ts';
import type { Problem } from '../../../src/shared/basics/result.ts';
import { benchInNewFolder, valueOf } from '../../support/bench/open.ts';
import { temporaryFolder } from '../../support/folder.ts';

const whole = (name: string): readonly string[] => readdirSync(name).filter((one) => one.endsWith('.backup'));

/** A loaded machine takes a while to start a thread. */
const patience = { timeout: 30_000, interval: 10 };

/** Records with a clock that the test moves. */
function shop(more: Partial<KeeperOptions> = {}) {
  const from = join(temporaryFolder(), 'records');
  const time = { s: 1000 };
  const clock: Clock = {
    monotonic_s: () => time.s,
    wall_ms: () => Date.parse('2026-11-01T08:00:00.000Z') + time.s * 1000,
  };
  const database = valueOf(openDatabase(from, clock));
  valueOf(openIdentity(database, () => 'bench-a'));
  const warned: (Problem | undefined)[] = [];
  const states: BackupState[] = [];
  const keeper = openKeeper({
    from,
    clock,
    choices: openBackupChoices(database),
    onState: (state) => states.push(state),
    onWarning: (problem) => warned.push(problem),
    lookEvery_ms: 2,
    ...more,
  });
  onTestFinished(async () => {
    await keeper.close();
    database.close();
  });
  let entries = 0;
  const write = (): void => {
    entries += 1;
    const at = new Date(clock.wall_ms()).toISOString();
    const deed = { kind: 'started', title: 'Axle one', technician: 'A. Tester' } as const;
    valueOf(openNotebooks(database).add(`b${entries}`, { id: `e${entries}`, version: 1, at, by: 'A. Tester', deed }));
  };
  /** When it has looked twice more, nothing is left over from before. */
  const looked = async (): Promise<void> => {
    const before = states.length;
    await expect.poll(() => states.length, patience).toBeGreaterThan(before + 1);
  };
  return { from, time, keeper, warned, states, write, looked };
}

describe('backups by themselves', () => {
  it('come when nobody has recorded for ten minutes, once an hour, and only with something new', async () => {
    const stick = temporaryFolder();
    const { keeper, time, write, states, looked } = shop();
    valueOf(keeper.choose(stick));
    write();
    await looked();
    time.s += 599;
    await looked();
    expect(whole(stick)).toHaveLength(0);
    time.s += 1;
    await expect.poll(() => whole(stick), patience).toHaveLength(1);
    await expect.poll(() => keeper.state(), patience).toMatchObject({ waiting: false, last: { builds: 1 } });
    expect(states.some(({ share }) => share !== undefined)).toBe(true);
    time.s += 7200;
    await looked();
    expect(whole(stick)).toHaveLength(1);
    write();
    await looked();
    expect(keeper.state().waiting).toBe(true);
    time.s += 600;
    await expect.poll(() => whole(stick), patience).toHaveLength(2);
  });

  it('come at the end, and are given up where the end may not take so long', async () => {
    const stick = temporaryFolder();
    const one = shop();
    valueOf(one.keeper.choose(stick));
    one.write();
    await one.keeper.close();
    expect(whole(stick)).toHaveLength(1);

    let aborted = false;
    const slow = shop({
      endTakes_ms: 20,
      make: async ({ signal }) =>
        new Promise((resolve) =>
          signal?.addEventListener('abort', () => {
            aborted = true;
            resolve({ ok: false, problem: { kind: 'stopped', sentence: 'stopped', remedy: '' } });
          }),
        ),
    });
    valueOf(slow.keeper.choose(stick));
    slow.write();
    await slow.keeper.close();
    expect(aborted).toBe(true);
  });

  it('are missed: a stick that is gone is told, and is over with the next one that is made', async () => {
    const stick = join(temporaryFolder(), 'stick');
    mkdirSync(stick);
    const { keeper, write, warned } = shop();
    valueOf(keeper.choose(stick));
    write();
    rmdirSync(stick);
    expect(await keeper.make()).toMatchObject({ ok: false, problem: { kind: 'no-backup-folder' } });
    expect(warned.at(-1)).toMatchObject({ sentence: expect.stringContaining(stick) });
    mkdirSync(stick);
    valueOf(await keeper.make());
    expect(warned.at(-1)).toBeUndefined();
  });

  it('are told when work is old and on one disk alone', async () => {
    const { write, time, warned } = shop();
    write();
    expect(warned.at(-1)).toBeUndefined();
    time.s += 15 * 24 * 3600;
    await expect.poll(() => warned.at(-1), patience).toMatchObject({ kind: 'backup-old' });
  });

  it('go into no folder that is not there, has no full path, or lies among the records', () => {
    const { keeper, from } = shop();
    for (const folder of ['stick', join(from, 'nowhere'), from, join(from, 'certificates')]) {
      if (folder.endsWith('certificates')) mkdirSync(folder);
      expect(keeper.choose(folder)).toMatchObject({ ok: false, problem: { kind: 'no-backup-folder' } });
    }
  });
});

describe('the bench', () => {
  it('backs up in a thread of its own, and takes up at the next start what was laid ready', async () => {
    const stick = temporaryFolder();
    const old = benchInNewFolder();
    const { id } = valueOf(await old.answers['builds.start']({ title: 'Axle one', technician: 'A. Tester' }));
    valueOf(await old.answers['backups.choose']({ folder: stick }));
    expect(valueOf(await old.answers['backups.make']({}))).toMatchObject({ waiting: false, last: { builds: 1 } });
    const about = valueOf(await old.answers['bench.about']({}));
    await old.close();

    const folder = join(temporaryFolder(), 'new computer');
    const fresh = valueOf(openBench({ folder, clock: systemClock, version: 'test' }));
    const { backups } = valueOf(await fresh.answers['backups.found']({ folder: stick }));
    expect(backups).toMatchObject([{ builds: 1, bench: about.bench.name }]);
    valueOf(await fresh.answers['backups.restore']({ file: backups[0]?.file ?? '' }));
    await fresh.close();
    const again = valueOf(openBench({ folder, clock: systemClock, version: 'test' }));
    expect(valueOf(await again.answers['builds.read']({ build: id })).entries).toHaveLength(1);
    expect(valueOf(await again.answers['bench.about']({})).bench).toEqual(about.bench);
    // Now there are records, and nothing goes over them.
    expect(await again.answers['backups.restore']({ file: backups[0]?.file ?? '' })).toMatchObject({
      ok: false,
      problem: { kind: 'records-there' },
    });
    await again.close();
  });

  it('leaves what was laid ready where it is when somebody has worked since', async () => {
    const stick = temporaryFolder();
    const old = benchInNewFolder();
    valueOf(await old.answers['builds.start']({ title: 'Axle one', technician: 'A. Tester' }));
    valueOf(await old.answers['backups.choose']({ folder: stick }));
    valueOf(await old.answers['backups.make']({}));
    await old.close();
    const folder = join(temporaryFolder(), 'new computer');
    const fresh = valueOf(openBench({ folder, clock: systemClock, version: 'test' }));
    valueOf(await fresh.answers['backups.restore']({ file: join(stick, whole(stick)[0] ?? '') }));
    const { id } = valueOf(await fresh.answers['builds.start']({ title: 'Axle two', technician: 'A. Tester' }));
    await fresh.close();
    const again = valueOf(openBench({ folder, clock: systemClock, version: 'test' }));
    expect(valueOf(await again.answers['builds.list']({})).map((build) => build.id)).toEqual([id]);
    await again.close();
  });
});
