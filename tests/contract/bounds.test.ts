import { readdirSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { databaseName } from '../../src/main/store/database.ts';
import { benchInNewFolder, newFolder, valueOf } from '../support/bench/open.ts';

const gauge = { label: 'G', kind: 'indicator', resolution: { value: 0.01, unit: 'mm' } } as const;

/** A folder in which so many gauges were entered, each on a port of its own that nobody serves. */
async function folderWith(count: number): Promise<string> {
  const folder = newFolder();
  const bench = benchInNewFolder(undefined, folder);
  const one = valueOf(await bench.answers['gauges.save']({ gauge: { ...gauge, link: 'serial:/dev/not-there-0' } }));
  await bench.close();
  const sql = new Sqlite(join(folder, databaseName));
  const copy = sql.prepare('INSERT INTO gauge_revision (id, at, record) VALUES (?, ?, ?)');
  for (let n = 1; n < count; n += 1)
    copy.run(`g${n}`, '', JSON.stringify({ ...one, id: `g${n}`, link: `serial:/dev/not-there-${n}` }));
  sql.close();
  return folder;
}

describe('a page that asks for too much', () => {
  it('enters 500 gauges and no more; those there are can be changed', async () => {
    const bench = benchInNewFolder(undefined, await folderWith(500));
    onTestFinished(async () => void (await bench.close()));
    const more = await bench.answers['gauges.save']({ gauge });
    expect(more).toMatchObject({ ok: false, problem: { kind: 'too-many-gauges' } });
    expect(
      (
        await bench.answers['gauges.save']({
          gauge: { ...gauge, id: 'g7', label: 'Other', link: 'serial:/dev/not-there-7' },
        })
      ).ok,
    ).toBe(true);
    // Of all that were saved with a port, 64 are looked for at a time.
    expect(valueOf(await bench.answers['gauges.states']({}))).toHaveLength(64);
    const another = await bench.answers['gauges.plug-in']({ gauge: 'g499' });
    expect(another).toMatchObject({ ok: false, problem: { kind: 'too-many-gauges' } });
  });

  it('has 20 reports kept, the newest', async () => {
    const folder = newFolder();
    const bench = benchInNewFolder(undefined, folder);
    onTestFinished(async () => void (await bench.close()));
    let last = '';
    for (let n = 0; n < 23; n += 1) last = valueOf(await bench.answers['bench.report']({})).file;
    const kept = readdirSync(join(folder, 'reports'));
    expect(kept.length).toBeLessThanOrEqual(20);
    expect(kept).toContain(last);
  });

  it('listens to no gauge outside the network of this machine, however it asks', async () => {
    const bench = benchInNewFolder();
    onTestFinished(async () => void (await bench.close()));
    const { id } = valueOf(await bench.answers['gauges.save']({ gauge: { ...gauge, link: 'tcp://127.0.0.1:1' } }));
    const far = 'tcp://198.51.100.7:80?ask=secret';
    for (const answer of [
      await bench.answers['gauges.save']({ gauge: { ...gauge, link: far } }),
      await bench.answers['gauges.plug-in']({ gauge: id, at: far }),
      await bench.answers['gauges.learn']({ link: far, seconds: 1 }),
    ])
      expect(answer).toMatchObject({ ok: false, problem: { kind: 'too-far' } });
  });

  it.each([
    ['brackets beside each other', () => `{"bundle":[${'{},'.repeat(40e6)}0],"sha256":""}`],
    ['brackets within each other', () => `{"bundle":${'['.repeat(90_000)}${']'.repeat(90_000)},"sha256":""}`],
    ['nothing, very long', () => ' '.repeat(200e6)],
  ])('takes in no file that unpacks to %s, and goes on', async (_what, text) => {
    const bench = benchInNewFolder();
    onTestFinished(async () => void (await bench.close()));
    const base64 = gzipSync(text(), { level: 1 }).toString('base64');
    const taken = await bench.answers['exports.take-in']({ base64 });
    expect(taken).toMatchObject({ ok: false, problem: { kind: 'not-a-bundle' } });
    expect((await bench.answers['bench.about']({})).ok).toBe(true);
  });
});
