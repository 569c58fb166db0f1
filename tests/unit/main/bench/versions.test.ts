import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, it, onTestFinished } from 'vitest';
import { aboutAnswers } from '../../../../src/main/bench/aboutAnswers.ts';
import { bytesAt, compareVersions, versionsIn } from '../../../../src/main/bench/versions.ts';
import { contentHash } from '../../../../src/main/certificate/hash.ts';
import { valueOf } from '../../../support/bench/open.ts';
import { temporaryFolder } from '../../../support/folder.ts';

const root = join(import.meta.dirname, '..', '..', '..', '..');
const own = readFileSync(join(root, 'docs', 'versions.json'));

const listOf = (...versions: readonly string[]): string => {
  const all = versions.map((version) => ({ version, date: '2027-01-03', news: [`New in ${version}.`] }));
  return JSON.stringify({ kind: 'axlewright-versions', versions: all, sha256: contentHash(all) });
};

describe('a list of versions', () => {
  it('of our own is whole, and ends with the version of the package', () => {
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { readonly version: string };
    expect(valueOf(versionsIn(own))[0]).toMatchObject({ version });
  });

  it('is refused where a letter of it was changed or it is something else', () => {
    const text = own.toString();
    for (const other of [text.replace('First', 'Last'), text.slice(0, -9), '{}', '[[[', ''])
      expect(versionsIn(Buffer.from(other))).toMatchObject({ ok: false, problem: { kind: 'no-version-list' } });
  });

  it('has versions in the order of their numbers', () => {
    const number = fc.nat(9999);
    fc.assert(
      fc.property(fc.tuple(number, number, number), fc.tuple(number, number, number), (a, b) => {
        const weight = ([x, y, z]: readonly number[]): number => (x ?? 0) * 1e8 + (y ?? 0) * 1e4 + (z ?? 0);
        expect(Math.sign(compareVersions(a.join('.'), b.join('.')))).toBe(Math.sign(weight(a) - weight(b)));
      }),
    );
    expect(compareVersions('unknown', '0.0.0')).toBeLessThan(0);
  });
});

describe('a newer version', () => {
  const answers = aboutAnswers({ version: '0.9.1', installed: root });

  it('is told from a file, and only those that are newer', async () => {
    const at = join(temporaryFolder(), 'versions.json');
    writeFileSync(at, listOf('0.9.1', '0.10.0', '0.9.0', '1.0.0'));
    const { newest, newer } = valueOf(await answers['about.newer']({ at }));
    expect(newest.version).toBe('1.0.0');
    expect(newer.map(({ version }) => version)).toEqual(['1.0.0', '0.10.0']);
    writeFileSync(at, listOf('0.9.1'));
    expect(valueOf(await answers['about.newer']({ at })).newer).toEqual([]);
  });

  it('is told from an address in the network, which is asked once, and never led on to another', async () => {
    const asked: string[] = [];
    const server = createServer(({ url = '' }, response) => {
      asked.push(url);
      if (url === '/on') response.writeHead(302, { location: '/versions.json' }).end();
      else if (url === '/endless') response.write('x'.repeat(300_000));
      else response.end(url === '/versions.json' ? listOf('2.0.0') : '');
    });
    await new Promise<void>((resolve) => void server.listen(0, '127.0.0.1', resolve));
    onTestFinished(() => server.closeAllConnections());
    onTestFinished(() => void server.close());
    const at = (path: string): string => `http://127.0.0.1:${(server.address() as AddressInfo).port}${path}`;
    expect(valueOf(await answers['about.newer']({ at: at('/versions.json') })).newest.version).toBe('2.0.0');
    expect(await answers['about.newer']({ at: at('/on') })).toMatchObject({ problem: { kind: 'not-read' } });
    expect(await answers['about.newer']({ at: at('/endless') })).toMatchObject({
      problem: { kind: 'no-version-list' },
    });
    expect(asked).toEqual(['/versions.json', '/on', '/endless']);
  });

  it.each([
    ['https://example.com/versions.json', 'too-far'],
    ['http://203.0.113.7/?what=was-read', 'too-far'],
    ['versions.json', 'no-place'],
    ['http://', 'no-place'],
    ['/dev/zero', 'no-version-list'],
    ['/no/such/file', 'not-read'],
  ])('is not looked for at %s: %s', async (at, kind) => {
    expect(await bytesAt(at)).toMatchObject({ ok: false, problem: { kind, field: 'at' } });
  });
});
