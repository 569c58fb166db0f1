import { z } from 'zod';
import { instantSchema } from '../../shared/basics/recorded.ts';
import { benchSchema } from '../../shared/job/certifying/certificateData.ts';

/**
 * A backup is one file: the database as SQLite copies it, with two tables more. One says whose it is and what was in it, the
 * other holds the key of the bench. Photos, readings and settings lie in the database already. Certificates never change once
 * they are written, so they lie beside it in a folder, each copied once, and the file names them by their hashes.
 */
export const aboutSchema = z.strictObject({
  kind: z.literal('axlewright-backup'),
  version: z.literal(1),
  at: instantSchema,
  bench: benchSchema,
  builds: z.int().min(0),
  entries: z.int().min(0),
  photos: z.int().min(0),
  certificates: z.array(z.strictObject({ name: z.string().min(1).max(300), sha256: z.string() })),
});
export type About = z.infer<typeof aboutSchema>;

export const backupTables = `
  CREATE TABLE backup_about (record TEXT NOT NULL) STRICT;
  CREATE TABLE backup_key (pem TEXT NOT NULL) STRICT;
`;
export const withoutBackupTables = 'DROP TABLE backup_about; DROP TABLE backup_key;';

export const ending = '.backup';

/** The first letters of a bench's id, as they stand in names of files: ids may hold anything. */
const short = (bench: string): string => bench.replaceAll(/[^A-Za-z0-9]/gu, '').slice(0, 8) || 'bench';

/** "axlewright-1a2b3c4d-2026-11-30T15-01-02-003Z.backup": sorted by name they are sorted by time. */
export const backupName = (bench: string, at: string): string =>
  `axlewright-${short(bench)}-${at.replaceAll(/[:.]/gu, '-')}${ending}`;

export const certificatesName = (bench: string): string => `axlewright-${short(bench)}-certificates`;

/** When a file was made, by its name; undefined for files of other benches and other things. */
export function madeAt(name: string, bench: string): Date | undefined {
  const head = `axlewright-${short(bench)}-`;
  if (!name.startsWith(head) || !name.endsWith(ending)) return undefined;
  const stamp = name.slice(head.length, -ending.length);
  const iso = /^(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z$/u.exec(stamp);
  if (iso === null) return undefined;
  const made = new Date(`${iso[1]}T${iso[2]}:${iso[3]}:${iso[4]}.${iso[5]}Z`);
  return Number.isNaN(made.getTime()) ? undefined : made;
}
