import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it, onTestFinished } from 'vitest';
import { readPages } from '../../../src/main/journal/readRows.ts';
import { settleStep } from '../../../src/main/journal/settle.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { databaseName, openDatabase } from '../../../src/main/store/database.ts';
import { benchInNewFolder, valueOf } from '../../support/bench/open.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { settleAll } from '../../support/settleAll.ts';

/** Records written by the program of 0.1.0 itself (commit 379badc): two builds, a gauge, 4,000 readings of which 3,001 are kept. */
function records(): string {
  const folder = temporaryFolder();
  const packed = readFileSync(resolve(import.meta.dirname, 'version-0.1.0.db.gz'));
  writeFileSync(join(folder, databaseName), gunzipSync(packed));
  return folder;
}

/** The readings as they were sent to it: row n + 1, because a row of before says that a run began. */
const sent = Array.from({ length: 4000 }, (_, index) => {
  const n = index + 1;
  const signed = Math.round(Math.sin(n / 50) * 300) / 1000;
  // SQLite keeps no minus sign of a zero.
  const value = signed + 0;
  const t = n / 100 + ((n * 7919) % 1000) / 1e9;
  return {
    t,
    at: 1_767_600_000_000 + n * 10,
    value,
    unit: 'mm',
    raw: Buffer.from(`${signed.toFixed(3)} mm\r`).toString('hex'),
  };
});

function readingsIn(sql: Parameters<typeof readPages>[0]): unknown {
  return [...readPages(sql, undefined, 1, 2 ** 40, true)].flatMap((row) => {
    if (row.kind !== 'reading') return [];
    const { t, at, value, unit, raw } = row;
    return [{ t, at, value, unit, raw: Buffer.from(raw).toString('hex') }];
  });
}

describe('records of 0.1.0', () => {
  it('are listed, found and opened by the bench of today', async () => {
    const service = benchInNewFolder(undefined, records());
    onTestFinished(async () => void (await service.close()));
    const listed = valueOf(await service.answers['builds.list']({}));
    expect(listed.map(({ title, standsAt, customer }) => [title, standsAt, customer])).toEqual([
      ['Front axle 77', 'Trial 1', 'M. Ostrander, AB-12 CD'],
      ['Rear axle 1180', 'Trial 1', 'M. Ostrander, AB-12 CD'],
    ]);
    const found = valueOf(await service.answers['builds.list']({ words: 'hums ab12cd rear' }));
    expect(found.map(({ title }) => title)).toEqual(['Rear axle 1180']);
  });

  it('are packed step by step without a change of any reading, and may be left in the middle', () => {
    const folder = records();
    const first = valueOf(openDatabase(folder, systemClock));
    expect(readingsIn(first.sql)).toEqual(sent);
    settleStep(first, { safe: 2 ** 40, beforeAt_ms: 0 });
    expect(readingsIn(first.sql)).toEqual(sent);
    first.close();
    const second = valueOf(openDatabase(folder, systemClock));
    onTestFinished(() => second.close());
    expect(readingsIn(second.sql)).toEqual(sent);
    expect(settleAll(second, 0).packed).toBe(3001 - 1024);
    expect(readingsIn(second.sql)).toEqual(sent);
    expect(second.sql.prepare('SELECT count(*) FROM journal WHERE seq BETWEEN 500 AND 3500').pluck().get()).toBe(0);
  });
});
