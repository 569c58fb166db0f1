import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Log, type LogLine, openLog, recentEvents } from '../../../../src/main/log/log.ts';
import { traceOf } from '../../../../src/main/log/traceOf.ts';
import { temporaryFolder } from '../../../support/folder.ts';

/** A log on a clock that the test moves. */
function logIn(folder: string): { readonly log: Log; readonly clock: { t: number } } {
  const clock = { t: 0 };
  const log = openLog(folder, { monotonic_s: () => clock.t, wall_ms: () => 1_700_000_000_000 + 1000 * clock.t });
  return { log, clock };
}

const linesOf = (folder: string, name = 'bench.jsonl'): LogLine[] =>
  readFileSync(join(folder, 'log', name), 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as LogLine);

describe('the log', () => {
  it('writes each event on a line, in order, for its owner alone', async () => {
    const folder = temporaryFolder();
    const { log, clock } = logIn(folder);
    log.note({ kind: 'opened', version: '1' });
    clock.t = 1.2345;
    log.note({ kind: 'gauge', gauge: 'g', state: 'live' });
    await log.close();
    expect(linesOf(folder)).toEqual([
      { at: '2023-11-14T22:13:20.000Z', t: 0, kind: 'opened', version: '1' },
      { at: '2023-11-14T22:13:21.234Z', t: 1.235, kind: 'gauge', gauge: 'g', state: 'live' },
    ]);
    expect(statSync(join(folder, 'log', 'bench.jsonl')).mode & 0o777).toBe(0o600);
    expect(statSync(join(folder, 'log')).mode & 0o777).toBe(0o700);
  });

  it('goes on in the next run, and remembers the last events of this one', async () => {
    const folder = temporaryFolder();
    for (let run = 0; run < 3; run += 1) {
      const { log, clock } = logIn(folder);
      for (let n = 0; n < 100; n += 1) {
        clock.t = 70 * n;
        log.note({ kind: 'gauge', run, n });
      }
      await log.close();
    }
    const { log } = logIn(folder);
    expect(log.recent()).toHaveLength(recentEvents);
    expect(log.recent().at(-1)).toMatchObject({ run: 2, n: 99 });
    expect(log.recent()[0]).toMatchObject({ run: 1, n: 0 });
  });

  it('keeps five files of a megabyte and no more', async () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'log'));
    for (let round = 0; round < 7; round += 1) {
      writeFileSync(join(folder, 'log', 'bench.jsonl'), `${'x'.repeat(1024 * 1024)}\n`);
      const { log } = logIn(folder);
      log.note({ kind: 'opened', round });
      await log.close();
    }
    expect(readdirSync(join(folder, 'log')).toSorted()).toEqual([
      'bench.1.jsonl',
      'bench.2.jsonl',
      'bench.3.jsonl',
      'bench.4.jsonl',
      'bench.jsonl',
    ]);
    expect(linesOf(folder)).toMatchObject([{ round: 6 }]);
  });

  it('holds back a flood of one kind, says how much, and lets the others through', async () => {
    const folder = temporaryFolder();
    const { log, clock } = logIn(folder);
    for (let n = 0; n < 5000; n += 1) log.note({ kind: 'defect', n });
    log.note({ kind: 'closed' });
    clock.t = 61;
    log.note({ kind: 'opened' });
    await log.close();
    const kinds = linesOf(folder).map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'defect')).toHaveLength(30);
    expect(kinds.slice(30)).toEqual(['closed', 'more', 'opened']);
    expect(linesOf(folder)[31]).toMatchObject({ of: 'defect', count: 4970 });
  });

  it('stops nothing when its folder cannot be written, and still remembers', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'log'), 'a file in its place');
    const { log } = logIn(folder);
    log.note({ kind: 'opened' });
    await log.close();
    expect(log.recent()).toMatchObject([{ kind: 'opened' }]);
  });
});

describe('an error in the log', () => {
  it('says where it happened and nothing that a person wrote', () => {
    const error = new TypeError(`cannot read "Mrs. Example's axle" in '${homedir()}/shop' of \`Example\``);
    const trace = traceOf(error);
    expect(JSON.stringify(trace)).not.toMatch(/Example|shop/u);
    expect(JSON.stringify(trace)).not.toContain(homedir() === '/' ? '\0' : homedir());
    expect(trace).toMatchObject({ name: 'TypeError', message: expect.stringContaining('cannot read') });
    expect((trace['stack'] as string[])[0]).toContain('log.test.ts');
  });

  it('may be anything that was thrown', () => {
    expect(traceOf('a word')).toEqual({ name: 'string' });
    expect(traceOf(Object.assign(new Error('full'), { code: 'ENOSPC' }))).toMatchObject({ code: 'ENOSPC' });
  });
});
