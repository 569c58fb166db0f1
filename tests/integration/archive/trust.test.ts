import { execFileSync } from 'node:child_process';
import { chmodSync, copyFileSync, chownSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as after } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readAddress } from '../../../src/main/archive/address.ts';
import { onWay } from '../../../src/main/archive/connect.ts';
import { ok } from '../../../src/shared/basics/result.ts';
import { openProxy } from '../../support/archive/proxy.ts';
import { type ArchiveServer, archiveServer, password, postgresBin } from '../../support/archive/server.ts';
import { valueOf } from '../../support/bench/open.ts';
import { benchFolder } from '../../support/archive/benchRecords.ts';

/** A certificate that signs itself, for a name or an IP address. */
function certificateFor(folder: string, name: string, alternative: string): string {
  const file = join(folder, `${name}.pem`);
  const words = ['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes', '-days', '2'];
  execFileSync(
    'openssl',
    [
      ...words,
      '-subj',
      `/CN=${name}`,
      '-addext',
      `subjectAltName=${alternative}`,
      '-keyout',
      `${file}.key`,
      '-out',
      file,
    ],
    { stdio: 'ignore' },
  );
  return file;
}

/** One for this machine that ended yesterday. */
function expired(folder: string): string {
  const file = join(folder, 'expired.pem');
  const run = (...words: readonly string[]): unknown => execFileSync('openssl', words, { stdio: 'ignore' });
  const key = ['-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes', '-keyout', `${file}.key`];
  run('req', '-new', ...key, '-subj', '/CN=expired', '-out', `${file}.asked`);
  writeFileSync(`${file}.names`, 'subjectAltName=IP:127.0.0.1');
  const made = ['-signkey', `${file}.key`, '-days', '-1', '-extfile', `${file}.names`, '-out', file];
  run('x509', '-req', '-in', `${file}.asked`, ...made);
  return file;
}

/** Gives a server a certificate and starts it anew with it. */
function encrypt(server: ArchiveServer, file: string): void {
  const data = join(server.folder, 'data');
  const { uid, gid } = statSync(data);
  for (const [from, name] of [
    [file, 'server.crt'],
    [`${file}.key`, 'server.key'],
  ] as const) {
    copyFileSync(from, join(data, name));
    chownSync(join(data, name), uid, gid);
    chmodSync(join(data, name), 0o600);
  }
  server.psql('ALTER SYSTEM SET ssl = on');
  server.stop('fast');
  server.start();
}

describe.skipIf(postgresBin() === undefined)('the line to an archive', () => {
  let server: ArchiveServer;
  const folder = benchFolder();
  const reach = (authority?: string) => ({
    address: valueOf(readAddress(server.to('keeper'), 'to')),
    password,
    ...(authority === undefined ? {} : { authority }),
  });
  const isEncrypted = (authority?: string) =>
    onWay(reach(authority), async (way) => {
      const [row] = await way<{ ssl: boolean }[]>`SELECT ssl FROM pg_stat_ssl WHERE pid = pg_backend_pid()`;
      return ok(row?.ssl);
    });
  let right = '';

  beforeAll(async () => {
    server = await archiveServer({ doors: ['host all all 127.0.0.1/32 scram-sha-256'] });
    right = certificateFor(folder, 'right', 'IP:127.0.0.1');
  });
  afterAll(() => server.end());

  it('goes in the clear to this machine alone, and not where an authority is named', async () => {
    expect(await isEncrypted()).toEqual(ok(false));
    expect(await isEncrypted(right)).toMatchObject({ ok: false, problem: { kind: 'archive-plain' } });
    expect(await isEncrypted(join(folder, 'none.pem'))).toMatchObject({ ok: false, problem: { kind: 'no-authority' } });
  });

  it('is encrypted to a server known by its IP address, and to no other that comes in its place', async () => {
    encrypt(server, right);
    expect(await isEncrypted(right)).toEqual(ok(true));
    const other = certificateFor(folder, 'other', 'IP:127.0.0.1');
    expect(await isEncrypted(other)).toMatchObject({ ok: false, problem: { kind: 'archive-not-trusted' } });
    const wrongName = certificateFor(folder, 'wrong', 'IP:10.0.0.7,DNS:localhost');
    encrypt(server, wrongName);
    const refused = await isEncrypted(wrongName);
    expect(refused).toMatchObject({ ok: false, problem: { kind: 'archive-not-trusted' } });
    const ended = expired(folder);
    encrypt(server, ended);
    const late = await isEncrypted(ended);
    expect(late).toMatchObject({ ok: false, problem: { kind: 'archive-not-trusted' } });
    expect(late.ok ? '' : late.problem.sentence).toContain('expired');
  });

  it('that is cut between two questions of a transaction is told, and the next one is another line', async () => {
    const proxy = await openProxy(server.port);
    const { address } = reach();
    const through = { address: { ...address, port: proxy.port }, password };
    const cut = await onWay(through, (way) =>
      way.begin(async (inside) => {
        await inside`SELECT 1`;
        proxy.cut();
        await after(20);
        await inside`SELECT 2`;
        return ok('never');
      }),
    );
    expect(cut).toMatchObject({ ok: false, problem: { kind: 'archive-away' } });
    expect(await onWay(through, async (way) => ok((await way`SELECT 3`).length))).toEqual(ok(1));
    await proxy.close();
  });

  it('that is cut at any moment of its beginning is told too', async () => {
    const { address } = reach();
    for (let wait = 0; wait < 12; wait += 1) {
      const proxy = await openProxy(server.port);
      const through = { address: { ...address, port: proxy.port }, password };
      const asked = onWay(through, (way) =>
        way.begin(async (inside) => ok((await inside`SELECT pg_sleep(0.2)`).length)),
      );
      await after(wait * 3);
      await proxy.close();
      expect(await asked).toMatchObject({ ok: false, problem: { kind: 'archive-away' } });
    }
  });
});
