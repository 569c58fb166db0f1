import type { StoredPhoto } from '../../shared/job/records/photo.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';

/** A file in the watched folder, as it was when it was dealt with. */
interface SettledArrival {
  readonly folder: string;
  readonly file: string;
  readonly modified_ms: number;
}

/** Photos by the hash of their bytes, and the folder they may come from. */
export interface PhotoStore {
  keep(photo: StoredPhoto, jpeg: Uint8Array, at: string): Result<void>;
  read(sha256: string): Buffer | undefined;
  /** When it was kept. */
  keptAt(sha256: string): string | undefined;
  /** The folder chosen last, and since when; none where it was given up. */
  chosen(): { readonly folder: string; readonly since_ms: number } | undefined;
  choose(folder: string | undefined, since_ms: number): Result<void>;
  settle(arrival: SettledArrival, became: 'kept' | 'put-aside'): Result<void>;
  isSettled(arrival: SettledArrival): boolean;
}

export function openPhotos({ sql, write }: Pick<Database, 'sql' | 'write'>): PhotoStore {
  const keep = sql.prepare<[string, string, number, number, Uint8Array]>(
    'INSERT INTO photo (sha256, at, width, height, jpeg) VALUES (?, ?, ?, ?, ?) ON CONFLICT (sha256) DO NOTHING',
  );
  const read = sql.prepare<[string], { jpeg: Buffer }>('SELECT jpeg FROM photo WHERE sha256 = ?');
  const keptAt = sql.prepare<[string], string>('SELECT at FROM photo WHERE sha256 = ?').pluck();
  const chosen = sql.prepare<[], { folder: string | null; since_ms: number }>(
    'SELECT folder, since_ms FROM photo_folder ORDER BY line DESC LIMIT 1',
  );
  const choose = sql.prepare<[string | null, number]>('INSERT INTO photo_folder (folder, since_ms) VALUES (?, ?)');
  const settle = sql.prepare<[string, string, number, string]>(
    'INSERT OR REPLACE INTO photo_arrival (folder, file, modified_ms, became) VALUES (?, ?, ?, ?)',
  );
  const settled = sql.prepare<[string, string, number]>(
    'SELECT 1 FROM photo_arrival WHERE folder = ? AND file = ? AND modified_ms = ?',
  );
  return {
    keep: ({ sha256, width, height }, jpeg, at) => write(() => void keep.run(sha256, at, width, height, jpeg)),
    read: (sha256) => read.get(sha256)?.jpeg,
    keptAt: (sha256) => keptAt.get(sha256),
    chosen() {
      const row = chosen.get();
      return row === undefined || row.folder === null ? undefined : { folder: row.folder, since_ms: row.since_ms };
    },
    choose: (folder, since_ms) => write(() => void choose.run(folder ?? null, Math.round(since_ms))),
    settle: ({ folder, file, modified_ms }, became) => write(() => void settle.run(folder, file, modified_ms, became)),
    isSettled: ({ folder, file, modified_ms }) => settled.get(folder, file, modified_ms) !== undefined,
  };
}
