import { existsSync, readFileSync, rmSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { writeWhole } from '../writeWhole.ts';
import type { Address } from './address.ts';
import type { Keychain } from './keychain.ts';

/** The password that was typed in Settings: a file of the data folder that only its owner can read, and in no backup. */
export const passwordFile = (folder: string): string => join(folder, 'axlewright.archive-password');

/** The same as the keychain of the system has sealed it; there is one of the two, or none. */
export const sealedFile = (folder: string): string => `${passwordFile(folder)}.sealed`;

/** Keeps a password sealed where the keychain takes it, else in the file. @throws what the disk says */
export async function keepPassword(folder: string, password: string, keychain: Keychain): Promise<void> {
  const sealed = await keychain.seal(password);
  if (sealed === undefined) writeWhole(passwordFile(folder), password);
  else writeWhole(sealedFile(folder), sealed);
  rmSync(sealed === undefined ? sealedFile(folder) : passwordFile(folder), { force: true });
}

/** Forgets it, wherever it lies. @throws what the disk says */
export function forgetPassword(folder: string): void {
  for (const file of [passwordFile(folder), sealedFile(folder)]) rmSync(file, { force: true });
}

/** Where the password lies that was typed in Settings. */
export function passwordLies(folder: string): 'in-keychain' | 'in-file' | 'nowhere' {
  if (existsSync(sealedFile(folder))) return 'in-keychain';
  return existsSync(passwordFile(folder)) ? 'in-file' : 'nowhere';
}

/** What the keychain gives back; undefined where nothing is sealed, or it gives nothing back. */
export async function openedPassword(folder: string, keychain: Keychain): Promise<string | undefined> {
  if (!existsSync(sealedFile(folder))) return undefined;
  return keychain.open(readFileSync(sealedFile(folder), 'utf8'));
}

interface Known {
  /** Where a password may have been kept. */
  readonly folder?: string | undefined;
  /** What the keychain gave back. */
  readonly opened?: string | undefined;
  readonly env?: NodeJS.ProcessEnv;
}

/**
 * The password for an address: PGPASSWORD, else the line for it in the file that PGPASSFILE names or in ~/.pgpass, else what
 * was typed in Settings. The file is read as PostgreSQL's own programs read it (documentation, "The Password File"). Undefined
 * where there is none: some servers ask for none. A file that others can read is refused.
 */
export function passwordFor(
  address: Address,
  { folder, opened, env = process.env }: Known = {},
): Result<string | undefined> {
  const { PGPASSWORD: given = '', PGPASSFILE: file = join(homedir(), '.pgpass') } = env;
  if (given !== '') return ok(given);
  const lines = readPrivate(file);
  if (!lines.ok) return lines;
  const found = (lines.value ?? '').split(/\r?\n/u).flatMap((line) => passwordIn(line, address) ?? []);
  if (found[0] !== undefined) return ok(found[0]);
  if (opened !== undefined || folder === undefined) return ok(opened);
  return existsSync(sealedFile(folder)) ? fail(staysSealed) : readPrivate(passwordFile(folder));
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

const staysSealed: Problem = {
  kind: 'password-sealed',
  sentence: 'The password of the archive is sealed by the keychain of this system, which does not give it back here.',
  remedy: 'Type it once more in Settings; on the command line, set PGPASSWORD.',
};
