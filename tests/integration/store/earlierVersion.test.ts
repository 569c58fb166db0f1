import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';
import { layEarlierRecords } from '../../support/installed.ts';

interface Row {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly deed: string;
}

/** The build in the records of 0.1.0, as they are read without our code. */
function asWritten(folder: string) {
  const database = new Sqlite(join(folder, 'axlewright.db'), { readonly: true });
  const rows = database.prepare<[], Row>('select id, at, by, deed from notebook_entry order by line').all();
  const readings = database.prepare<[], { n: number }>('select count(*) as n from journal').get()?.n;
  database.close();
  return { rows, readings };
}

describe('the records of version 0.1.0', () => {
  it('are opened by this one with every entry as it was written, and can be certified anew', async () => {
    const folder = newFolder();
    layEarlierRecords(folder);
    const { rows, readings } = asWritten(folder);
    expect(rows).toHaveLength(48);
    expect(readings).toBe(17_804);
    const bench = benchInNewFolder(undefined, folder);
    const [summary] = valueOf(await bench.answers['builds.list']({}));
    expect(summary?.title).toBe('Demo axle, 210 mm ring gear');
    const build = summary?.id ?? '';
    const { entries } = valueOf(await bench.answers['builds.read']({ build }));
    expect(entries.map(({ id }) => id)).toEqual(rows.map(({ id }) => id));
    for (const [index, { at, by, deed }] of rows.entries())
      expect(entries[index]).toMatchObject({ at, by, deed: JSON.parse(deed) as unknown });
    const issued = await bench.answers['certificate.issue']({ build, by: 'A. Tester', page: 'a4', units: 'metric' });
    expect(issued.ok).toBe(true);
    expect(valueOf(await bench.answers['gauges.list']({}))).toHaveLength(2);
    valueOf(await bench.close());
  });
});
