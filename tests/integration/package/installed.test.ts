import { type ChildProcess, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { valueOf } from '../../support/bench/open.ts';
import { launchBrowser, openPage } from '../../support/browser.ts';
import { clientOf } from '../../support/clientOf.ts';
import {
  asRoot,
  canPack,
  ended,
  installInto,
  layEarlierRecords,
  linkOf,
  madePackage,
  ownFolder,
  removeFrom,
  startInstalled,
} from '../../support/installed.ts';

const sumOf = (file: string): string => createHash('sha256').update(readFileSync(file)).digest('hex');

/** Made once, installed once into a clean root, and used there by somebody without rights, environment or npm. */
describe.skipIf(!canPack)('the Debian package', () => {
  const records = ownFolder();
  const demoOut = join(ownFolder(), 'demo');
  const started: ChildProcess[] = [];
  let deb: string;
  let again: string;
  let clean: string;
  let demo: ReturnType<typeof ended>;
  let browser: Browser;
  let page: Page;
  let bench: ChildProcess;
  let link: string;

  const start = (...words: readonly string[]): ChildProcess => {
    const child = startInstalled(clean, words);
    started.push(child);
    return child;
  };
  const run = (...words: readonly string[]) => ended(start(...words));

  beforeAll(async () => {
    deb = await madePackage();
    clean = installInto(deb);
    // Takes half a minute in real time; the rest goes on beside it.
    demo = run('demo', '--out', demoOut);
    [again, browser] = await Promise.all([madePackage(), launchBrowser()]);
  });
  afterAll(async () => {
    await browser.close();
    for (const child of started) child.kill('SIGKILL');
  });

  it('is the same byte for byte when it is made again', () => {
    expect(sumOf(again)).toBe(sumOf(deb));
  });

  it('brings its menu entry, icon, manual page, completion, right to serial ports, and the licence of every part', () => {
    for (const file of [
      'usr/share/applications/axlewright.desktop',
      'usr/share/icons/hicolor/scalable/apps/axlewright.svg',
      'usr/share/man/man1/axlewright.1.gz',
      'usr/share/bash-completion/completions/axlewright',
      'usr/lib/udev/rules.d/70-axlewright-serial.rules',
      'usr/share/doc/axlewright/copyright',
      'usr/share/doc/axlewright/docs/cautions.md',
      'usr/lib/axlewright/licences/node.txt',
    ])
      expect(statSync(join(clean, file)).size, file).toBeGreaterThan(100);
    const parts = readFileSync(join(clean, 'usr/lib/axlewright/licences/parts.txt'), 'utf8').trim().split('\n');
    expect(parts.length).toBeGreaterThan(40);
    for (const name of ['better-sqlite3', 'react', 'pdfkit', 'serialport'])
      expect(
        parts.some((line) => line.startsWith(`${name} `)),
        name,
      ).toBe(true);
  });

  it('stays below 140 MB installed', () => {
    const { stdout } = spawnSync('du', ['-sb', clean], { encoding: 'utf8' });
    expect(Number(stdout.split('\t')[0])).toBeLessThan(140e6);
  });

  it('answers on the command line', async () => {
    const { code, err } = await run('--help');
    expect(code).toBe(0);
    expect(err).toContain('measure backlash|runout|torque');
    expect(await run('ports')).toMatchObject({ code: 0 });
  });

  it('opens the bench, which a browser finds by its link', async () => {
    bench = start('open', '--browser', '--data', records);
    link = await linkOf(bench);
    const opened = await openPage(browser, link);
    page = opened.page;
    await page.getByRole('button', { name: 'Settings' }).first().waitFor();
    expect(opened.faults).toEqual([]);
  });

  it('reads a gauge on a serial line, on to the page', async () => {
    const line = await linkOf(start('simulate', '--gauge', 'indicator', '--format', 'auto', '--rate', '20'));
    const { client, close } = await clientOf(link);
    const gauge = { label: 'Installed dial', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } } as const;
    const { id } = valueOf(await client.ask('gauges.save', { gauge: { ...gauge, link: line } }));
    const heard = new Promise<number>((resolve) => {
      client.hear('heard', (news) => news.length > 0 && resolve(news.length));
    });
    valueOf(await client.ask('gauges.plug-in', { gauge: id }));
    expect(await heard).toBeGreaterThan(0);
    await page.getByText('Installed dial').first().waitFor();
    close();
  });

  it('hands a second start over to the bench that runs', async () => {
    const { code, out, err } = await run('open', '--browser', '--data', records);
    expect({ code, link: (JSON.parse(out) as { link: string }).link }).toEqual({ code: 0, link });
    expect(err).toContain('running already');
  });

  it('is ended from the screens', async () => {
    const closed = ended(bench);
    await page.getByRole('button', { name: 'Settings' }).first().click();
    await page.getByRole('button', { name: 'End the bench' }).click();
    await page.getByRole('button', { name: 'End it now' }).click();
    await page.getByText('The bench has been ended.').waitFor();
    expect((await closed).code).toBe(0);
    expect(existsSync(join(records, 'open-bench.html'))).toBe(false);
  });

  it('opens the records of version 0.1.0', async () => {
    const earlier = ownFolder();
    layEarlierRecords(earlier);
    // The bench brings them to this version's shape; the command line alone changes nothing.
    const opened = start('open', '--browser', '--data', earlier);
    await linkOf(opened);
    const closed = ended(opened);
    opened.kill('SIGTERM');
    expect((await closed).code).toBe(0);
    const { out } = await run('builds', '--data', earlier);
    expect(JSON.parse(out)).toMatchObject([{ title: 'Demo axle, 210 mm ring gear' }]);
  });

  it('does the whole job of the demo, and verifies its certificate', async () => {
    const { code, err } = await demo;
    expect(err.slice(-500), 'the demo').not.toContain('fault');
    expect(code).toBe(0);
    const verified = await run('verify', join(demoOut, 'certificate.json'));
    expect(JSON.parse(verified.out)).toMatchObject({ holds: true });
  });

  it.runIf(asRoot)('is removed without touching the records', () => {
    removeFrom(clean);
    expect(existsSync(join(clean, 'usr/lib/axlewright'))).toBe(false);
    expect(existsSync(join(clean, 'usr/bin/axlewright'))).toBe(false);
    expect(statSync(join(records, 'axlewright.db')).size).toBeGreaterThan(0);
  });
});
