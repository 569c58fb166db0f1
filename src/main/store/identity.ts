import { chmodSync, existsSync, readFileSync } from 'node:fs';
import type { KeyObject } from 'node:crypto';
import { join } from 'node:path';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { BenchSigning } from '../../shared/job/certifying/certificateData.ts';
import { writeWhole } from '../writeWhole.ts';
import type { Database } from './database.ts';
import { databaseProblem } from './databaseProblem.ts';
import { fingerprintOf, keyFromPem, keyToPem, newKey, publicKeyOf, signatureOf } from './signing.ts';

/** Who a data folder is: its id for ever, its name and key as they are now. */
export interface Identity {
  readonly bench: BenchSigning;
  readonly fingerprint: string;
  /** Ed25519 signature of the bytes, hex. */
  readonly sign: (bytes: Uint8Array) => string;
}

/** A bench somebody's certificate may be signed by. */
export interface KnownBench extends BenchSigning {
  readonly own: boolean;
}

export const keyFile = (folder: string): string => join(folder, 'axlewright.key');

interface Row {
  readonly id: string;
  readonly own: 0 | 1;
  readonly name: string;
  readonly key: string;
}

/** Every bench known here, with every name and key it had, the newest last. */
export const knownBenches = ({ sql }: Pick<Database, 'sql'>): readonly KnownBench[] =>
  sql
    .prepare<[], Row>('SELECT id, own, name, key FROM bench ORDER BY line')
    .all()
    .map(({ own, ...bench }) => ({ ...bench, own: own === 1 }));

/** The identity of a data folder as it stands. Fails where none was made yet, or its key is gone. */
export function readIdentity(database: Pick<Database, 'sql' | 'folder'>): Result<Identity> {
  const own = knownBenches(database).findLast((bench) => bench.own);
  if (own === undefined) return fail(noIdentity);
  const key = keyIn(database.folder);
  if (key === undefined || publicKeyOf(key) !== own.key) return fail(noKey(database.folder));
  return ok(identityOf(own, key));
}

/**
 * The identity of the bench that opens its data folder, made with the first opening. A key that is gone is replaced: what
 * was signed with the old one stays known as this bench's, because the old public key stays written down.
 */
export function openIdentity(database: Database, newId: () => string): Result<Identity> {
  const own = knownBenches(database).findLast((bench) => bench.own);
  try {
    const key = keyIn(database.folder) ?? madeKey(database.folder);
    const now = publicKeyOf(key);
    const id = own?.id ?? newId();
    const bench = { id, name: own?.name ?? `Bench ${id.slice(0, 4)}`, key: now };
    if (own?.key !== now) {
      const written = noteBench(database, { ...bench, own: true });
      if (!written.ok) return written;
    }
    return ok(identityOf(bench, key));
  } catch (error) {
    return fail(databaseProblem(error, keyFile(database.folder)));
  }
}

/** Writes a bench down as it is known now, unless it is known so already. */
function noteBench(database: Database, bench: KnownBench): Result<void> {
  const latest = knownBenches(database).findLast(({ id }) => id === bench.id);
  if (latest?.name === bench.name && latest.key === bench.key) return ok(undefined);
  return database.write(() => noteBenchInside(database, bench));
}

/** The same inside a write that has more to do. */
export function noteBenchInside({ sql, clock }: Pick<Database, 'sql' | 'clock'>, bench: KnownBench): void {
  const at = new Date(clock.wall_ms()).toISOString();
  sql
    .prepare('INSERT INTO bench (id, own, name, key, at) VALUES (?, ?, ?, ?, ?)')
    .run(bench.id, bench.own ? 1 : 0, bench.name, bench.key, at);
}

const identityOf = ({ id, name, key }: BenchSigning, secret: KeyObject): Identity => ({
  bench: { id, name, key },
  fingerprint: fingerprintOf(key),
  sign: (bytes) => signatureOf(bytes, secret),
});

/** The private key of a data folder, for its owner alone; undefined where there is none that can be read. */
function keyIn(folder: string): KeyObject | undefined {
  const file = keyFile(folder);
  if (!existsSync(file)) return undefined;
  try {
    const key = keyFromPem(readFileSync(file, 'utf8'));
    return key.asymmetricKeyType === 'ed25519' ? key : undefined;
  } catch {
    return undefined;
  }
}

function madeKey(folder: string): KeyObject {
  const key = newKey();
  writeWhole(keyFile(folder), keyToPem(key));
  chmodSync(keyFile(folder), 0o600);
  return key;
}

const noIdentity: Problem = {
  kind: 'no-identity',
  sentence: 'This data folder has no bench of its own yet, so that nobody could sign.',
  remedy: 'Start the bench once with this data folder.',
};

const noKey = (folder: string): Problem => ({
  kind: 'no-key',
  sentence: `The key of this bench is not in ${keyFile(folder)}, so that nobody can sign.`,
  remedy: 'Put the file back from a backup, or start the bench once: it makes a new key.',
});
