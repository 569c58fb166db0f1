import { existsSync, readFileSync, rmSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { writeWhole } from '../writeWhole.ts';
import type { Address } from './address.ts';

/** The password that was typed in Settings: a file of the data folder that only its owner can read, and in no backup. */
export const passwordFile = (folder: string): string => join(folder, 'axlewright.archive-password');

/** Keeps a password, or forgets it where it is empty. @throws what the disk says */
export function keepPassword(folder: string, password: string): void {
  if (password === '') rmSync(passwordFile(folder), { force: true });
  else writeWhole(passwordFile(folder), password);
}

/**
 * The password for an address: PGPASSWORD, else the line for it in the file that PGPASSFILE names or in ~/.pgpass, else what
 * was typed in Settings. The file is read as PostgreSQL's own programs read it (documentation, "The Password File"). Undefined
 * where there is none: some servers ask for none. A file that others can read is refused.
 */
export function passwordFor(
  address: Address,
  folder: string | undefined,
  env: NodeJS.ProcessEnv = process.env,
): Result<string | undefined> {
  const { PGPASSWORD: given = '', PGPASSFILE: file = join(homedir(), '.pgpass') } = env;
  if (given !== '') return ok(given);
  const lines = readPrivate(file);
  if (!lines.ok) return lines;
  const found = (lines.value ?? '').split(/\r?\n/u).flatMap((line) => passwordIn(line, address) ?? []);
  if (found[0] !== undefined) return ok(found[0]);
  return folder === undefined ? ok(undefined) : readPrivate(passwordFile(folder));
}

function readPrivate(file: string): Result<string | undefined> {
  if (!existsSync(file)) return ok(undefined);
  const { mode } = statSync(file);
  if (process.platform !== 'win32' && (mode & 0o077) !== 0) return fail(openToOthers(file));
  return ok(readFileSync(file, 'utf8'));
}

/** The password in a line `host:port:database:user:password`, where it is for this address; * stands for any, \ before a : or \. */
function passwordIn(line: string, { host, port, database, user }: Address): string | undefined {
  if (line.startsWith('#')) return undefined;
  const fields = [...line.matchAll(/((?:[^:\\]|\\.)*)(?::|$)/gu)].map(([, field = '']) =>
    field.replaceAll(/\\(.)/gu, '$1'),
  );
  const asked = [host, String(port), database, user];
  const isFor = asked.every((one, index) => fields[index] === '*' || fields[index] === one);
  return isFor ? fields[asked.length] : undefined;
}

const openToOthers = (file: string): Problem => ({
  kind: 'password-open',
  sentence: `Others on this machine can read the passwords in ${file}.`,
  remedy: `Close it with chmod 600 ${file}, and try again.`,
});
