import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openBench } from '../../../src/main/bench/bench.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { databaseProblem } from '../../../src/main/store/databaseProblem.ts';
import { openDatabase } from '../../../src/main/store/database.ts';
import { writeWhole } from '../../../src/main/writeWhole.ts';
import { temporaryFolder } from '../../support/folder.ts';

const fifo = (path: string): void => void spawnSync('mkfifo', [path]);
const files = ['axlewright.db', 'axlewright.db-wal', 'axlewright.pen', 'axlewright.last', 'axlewright.key'];

describe.skipIf(process.platform === 'win32')('strange things in a data folder', () => {
  it.each(files)('a pipe, a device or a folder in the place of %s is named, and not waited for', (name) => {
    const ways = [fifo, (path: string) => symlinkSync('/dev/zero', path), (path: string) => mkdirSync(path)];
    for (const put of ways) {
      const folder = temporaryFolder();
      put(join(folder, name));
      const opened = openDatabase(folder, systemClock);
      expect(opened).toMatchObject({ ok: false, problem: { kind: 'not-our-database' } });
      if (!opened.ok) expect(opened.problem.sentence).toContain(join(folder, name));
    }
  });

  it('a pipe in the place of the log holds up neither the bench nor its end', async () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'log'));
    fifo(join(folder, 'log', 'bench.jsonl'));
    const bench = openBench({ folder, clock: systemClock, version: 'test' });
    if (!bench.ok) throw new Error(bench.problem.sentence);
    expect((await bench.value.answers['builds.start']({ title: 'One', technician: 'A. Tester' })).ok).toBe(true);
    expect(await bench.value.close()).toEqual({ ok: true, value: undefined });
  });

  it('names in any writing are taken', () => {
    for (const name of ['Größe 测量 💥', ' %2e#?&', '-data', 'a\nb', "it's", '‮rtl']) {
      const folder = join(temporaryFolder(), name);
      const opened = openDatabase(folder, systemClock);
      if (!opened.ok) throw new Error(opened.problem.sentence);
      opened.value.close();
      expect(existsSync(join(folder, 'axlewright.db'))).toBe(true);
    }
  });

  it('a folder that cannot be made is said in a sentence', () => {
    for (const folder of ['/proc/self/x', '/dev/null/x', join(temporaryFolder(), 'y'.repeat(300)), '/sys/x'])
      expect(openDatabase(folder, systemClock), folder).toMatchObject({ ok: false });
  });

  it('a link laid in the way of a file that is being written leads nowhere', () => {
    const [folder, victim] = [temporaryFolder(), join(temporaryFolder(), 'thesis.txt')];
    writeFileSync(victim, 'years of work');
    symlinkSync(victim, join(folder, 'certificate.pdf.part'));
    writeWhole(join(folder, 'certificate.pdf'), 'whole');
    expect(readFileSync(victim, 'utf8')).toBe('years of work');
    expect(readFileSync(join(folder, 'certificate.pdf'), 'utf8')).toBe('whole');
  });
});

describe('what the system says', () => {
  it.each(['EMFILE', 'ENFILE', 'EBUSY', 'EINVAL', 'ESTALE', 'ENXIO', 'ETIMEDOUT'])(
    '%s is told and no fault',
    (code) => {
      const problem = databaseProblem(Object.assign(new Error('said'), { code }), '/records/axlewright.db');
      expect(problem).toMatchObject({ kind: 'disk-error' });
      expect(problem.sentence).toContain('/records/axlewright.db');
    },
  );

  it('a wrong statement is a fault of the program', () => {
    for (const code of ['SQLITE_ERROR', 'ERR_ASSERTION', ''])
      expect(() => databaseProblem(Object.assign(new Error('wrong'), { code }), 'x')).toThrow('wrong');
  });
});
