import { describe, expect, it } from 'vitest';
import { backupDue, tooOld } from '../../../../src/main/backup/due.ts';

describe('a backup by itself', () => {
  it('comes ten minutes after the last entry, once an hour, and only where there is something new', () => {
    const due = { isNew: true, quiet_s: 600, tried_s: 3600 };
    expect(backupDue(due)).toBe(true);
    expect(backupDue({ ...due, isNew: false })).toBe(false);
    expect(backupDue({ ...due, quiet_s: 599 })).toBe(false);
    expect(backupDue({ ...due, tried_s: 3599 })).toBe(false);
  });
});

describe('work that is on one disk alone', () => {
  const now_ms = Date.parse('2026-11-30T12:00:00.000Z');
  const old = (since: string | undefined, folder: string | undefined = '/media/stick') =>
    tooOld({ folder, last: '2026-11-20T12:00:00.000Z', since, now_ms });

  it('is told after seven days where a folder was chosen, with the day of the last backup', () => {
    expect(old(undefined)).toBeUndefined();
    expect(old('2026-11-23T12:00:01.000Z')).toBeUndefined();
    expect(old('2026-11-23T12:00:00.000Z')).toMatchObject({
      kind: 'backup-old',
      sentence: 'The last backup is of 2026-11-20, and work of the last 7 days is on this disk alone.',
    });
  });

  it('is told after fourteen days where none was chosen', () => {
    const without = (since: string) => tooOld({ folder: undefined, last: undefined, since, now_ms });
    expect(without('2026-11-16T12:00:01.000Z')).toBeUndefined();
    expect(without('2026-11-16T12:00:00.000Z')?.sentence).toMatch(/^There is no backup/u);
  });

  it('is not told of a clock that was set back', () => {
    expect(old('2027-11-23T12:00:00.000Z')).toBeUndefined();
  });
});
