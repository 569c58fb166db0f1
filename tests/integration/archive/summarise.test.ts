import { rmSync } from 'node:fs';
import { expect, it } from 'vitest';
import { summariesOf } from '../../../src/main/archive/summarise.ts';
import { benchFolder, withRecords, writeBuild } from '../../support/archive/benchRecords.ts';

it('says of a build what the records say, the same as its notebook says, and nothing before it is whole', () => {
  const folder = benchFolder();
  withRecords(folder, 'bench-1', (database) => {
    writeBuild(database, { build: 'whole', title: 'Rear axle of the grey van' });
    const last = Number(database.sql.prepare('SELECT max(line) FROM notebook_entry').pluck().get());
    const kept = summariesOf(database)('whole', last);
    expect(kept).toMatchObject({ build: 'whole', heading: expect.stringContaining('rear axle of the grey van') });
    expect(summariesOf(database)('whole', last - 1)).toBeUndefined();
    // As another version of the program left it: it is made anew, from the notebook.
    database.sql.exec("UPDATE build_summary SET version = 0, words = 'of another version'");
    const made = summariesOf(database)('whole', last);
    expect({ ...made, record: JSON.parse(made?.record ?? '') as unknown }).toEqual({
      ...kept,
      record: JSON.parse(kept?.record ?? '') as unknown,
    });
  });
  rmSync(folder, { recursive: true });
});
