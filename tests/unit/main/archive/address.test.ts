import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addressWords, isLoopback, readAddress } from '../../../../src/main/archive/address.ts';
import { noKeychain } from '../../../../src/main/archive/keychain.ts';
import {
  forgetPassword,
  keepPassword,
  openedPassword,
  passwordFile,
  passwordFor,
  passwordLies,
  sealedFile,
} from '../../../../src/main/archive/secret.ts';
import { wait_ms } from '../../../../src/main/archive/patience.ts';
import { valueOf } from '../../../support/bench/open.ts';
import { temporaryFolder } from '../../../support/folder.ts';

describe('the address of an archive', () => {
  it('is read as it is written, and written so that it is read again', () => {
    const name = fc.stringMatching(/^[a-z][a-z0-9_ @/äß]{0,12}$/u);
    fc.assert(
      fc.property(
        name,
        name,
        fc.constantFrom('db.shop.example', '10.1.2.3', '::1'),
        fc.integer({ min: 1, max: 65_535 }),
        (user, last, host, port) => {
          const database = last.replaceAll('/', '_');
          const address = { user, host, port, database };
          expect(valueOf(readAddress(addressWords(address), '--to'))).toEqual(address);
        },
      ),
    );
  });

  it.each([
    ['mysql://a@b/c', 'wrong-address'],
    ['postgres://b/c', 'wrong-address'],
    ['postgres://a@b', 'wrong-address'],
    ['postgres://a@b/c?sslmode=disable', 'wrong-address'],
    ['nonsense', 'wrong-address'],
    ['postgres://a:secret@b/c', 'password-in-address'],
  ])('%s is refused as %s, with the option named', (text, kind) => {
    const read = readAddress(text, '--to');
    expect(read).toMatchObject({ ok: false, problem: { kind, field: '--to' } });
    if (!read.ok) expect(read.problem.sentence).not.toContain('secret');
  });

  it('is one of this machine only where nothing can leave it', () => {
    expect(['localhost', '::1', '127.0.0.1', '127.9.9.9'].every(isLoopback)).toBe(true);
    expect(['127.evil.example', '10.0.0.1', 'localhost.example', '0.0.0.0', '::'].some(isLoopback)).toBe(false);
  });
});

describe('the password of a role', () => {
  const address = valueOf(readAddress('postgres://bench_1@db.example:5433/archive', ''));

  it('comes from the environment first, then from the password file, then from what was typed', async () => {
    const folder = temporaryFolder();
    await keepPassword(folder, 'typed', noKeychain);
    const file = join(folder, 'pass');
    writeFileSync(file, '# for others\nother:*:*:bench_1:wrong\ndb.example:5433:*:bench\\_1:with\\:colon\n', {
      mode: 0o600,
    });
    const none = join(folder, 'none');
    expect(valueOf(passwordFor(address, { folder, env: { PGPASSWORD: 'given', PGPASSFILE: file } }))).toBe('given');
    expect(valueOf(passwordFor(address, { folder, env: { PGPASSFILE: file } }))).toBe('with:colon');
    expect(valueOf(passwordFor(address, { folder, env: { PGPASSFILE: none } }))).toBe('typed');
    expect(valueOf(passwordFor({ ...address, user: 'else' }, { env: { PGPASSFILE: file } }))).toBeUndefined();
  });

  it('is sealed by the keychain where there is one, and in no file then', async () => {
    const folder = temporaryFolder();
    // A stand-in: it turns the word round, and seals nothing.
    const turned = async (text: string) => Array.from(text).toReversed().join('');
    const keychain = { seal: turned, open: turned };
    const asked = { folder, env: { PGPASSFILE: join(folder, 'none') } };
    await keepPassword(folder, 'before', noKeychain);
    expect(passwordLies(folder)).toBe('in-file');
    await keepPassword(folder, 'typed', keychain);
    expect(passwordLies(folder)).toBe('in-keychain');
    expect(existsSync(passwordFile(folder))).toBe(false);
    expect(readFileSync(sealedFile(folder), 'utf8')).toBe('depyt');
    expect(passwordFor(address, asked)).toMatchObject({ ok: false, problem: { kind: 'password-sealed' } });
    const opened = await openedPassword(folder, keychain);
    expect(valueOf(passwordFor(address, { ...asked, opened }))).toBe('typed');
    expect(await openedPassword(folder, noKeychain)).toBeUndefined();
    await keepPassword(folder, 'later', noKeychain);
    expect([passwordLies(folder), existsSync(sealedFile(folder))]).toEqual(['in-file', false]);
    forgetPassword(folder);
    expect(passwordLies(folder)).toBe('nowhere');
    expect(valueOf(passwordFor(address, asked))).toBeUndefined();
  });

  it('is not read from a file that others can read', async () => {
    const folder = temporaryFolder();
    await keepPassword(folder, 'typed', noKeychain);
    chmodSync(passwordFile(folder), 0o644);
    expect(passwordFor(address, { folder, env: { PGPASSFILE: join(folder, 'none') } })).toMatchObject({
      ok: false,
      problem: { kind: 'password-open' },
    });
  });
});

describe('the wait before another try', () => {
  it('begins at a second, doubles, ends at a minute, and is shorter by up to a quarter by chance', () => {
    expect([1, 2, 3, 6, 7, 50].map((failures) => wait_ms(failures, 1))).toEqual([
      1000, 2000, 4000, 32_000, 60_000, 60_000,
    ]);
    expect(wait_ms(3, 0)).toBe(3000);
  });
});
