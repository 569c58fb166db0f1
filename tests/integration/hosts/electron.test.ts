import { fork } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { _electron as electron } from 'playwright';
import { describe, expect, it } from 'vitest';
import { measuringHash } from '../../../src/main/certificate/measuring.ts';
import { temporaryFolder } from '../../support/folder.ts';

const root = resolve(import.meta.dirname, '..', '..', '..');

/** The Electron binary if it is there already; a test never downloads it. */
function electronProgram(): string | undefined {
  const folder = dirname(createRequire(import.meta.url).resolve('electron/package.json'));
  const name = join(folder, 'path.txt');
  if (!existsSync(name)) return undefined;
  const program = join(folder, 'dist', readFileSync(name, 'utf8'));
  return existsSync(program) ? program : undefined;
}

const program = electronProgram();
const screen = process.platform !== 'linux' || process.env['DISPLAY'] !== undefined;
const why = program === undefined ? 'the Electron binary is not on this machine' : 'there is no screen here';

describe('the Electron program', () => {
  if (program === undefined || !screen) process.stderr.write(`electron smoke test skipped: ${why}\n`);

  it.skipIf(program === undefined || !screen)('opens its window on the screens, with the bench behind it', async () => {
    const data = mkdtempSync(join(tmpdir(), 'axlewright-electron-'));
    const app = await electron.launch({
      ...(program === undefined ? {} : { executablePath: program }),
      args: [root, '--data', data, '--simulate'],
    });
    const window = await app.firstWindow();
    await expect.poll(() => window.title()).toContain('Axlewright');
    await expect.poll(async () => (await window.textContent('body'))?.includes('Indicator')).toBe(true);
    await app.close();
  });

  it('is built from its three programs', () => {
    for (const file of [
      'out/main/index.js',
      'out/main/benchProcess.js',
      'out/main/backupWorker.js',
      'out/preload/preload.cjs',
      'out/renderer/index.html',
    ]) {
      expect(existsSync(join(root, file)), `${file} (npm test builds it)`).toBe(true);
    }
  });

  it('gives its preload nothing but the electron module to import', () => {
    const text = readFileSync(join(root, 'out/preload/preload.cjs'), 'utf8');
    expect([...text.matchAll(/require\((["'`])(.+?)\1\)/gu)].map((match) => match[2])).toEqual(['electron']);
  });

  it('keeps Electron out of the bench process', () => {
    const chunks = readFileSync(join(root, 'out/main/benchProcess.js'), 'utf8');
    expect(chunks).not.toMatch(/from\s*["']electron["']|require\(["']electron["']\)/u);
  });

  it('knows by which code it measures, though its sources do not lie beside it', () => {
    const main = join(root, 'out/main');
    const built = readdirSync(main, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.js'));
    expect(built.some((name) => readFileSync(join(main, name), 'utf8').includes(measuringHash()))).toBe(true);
  });

  it('has a bench process that answers, with its native parts, under the Node that Electron carries', async () => {
    const data = mkdtempSync(join(tmpdir(), 'axlewright-built-'));
    const bench = fork(join(import.meta.dirname, 'builtBench.mjs'), ['--data', data, '--simulate'], { stdio: 'pipe' });
    try {
      const texts: string[] = [];
      bench.on('message', (text) => {
        if (typeof text === 'string') texts.push(text);
      });
      const ask = (id: number, name: string, what = {}): Promise<unknown> => {
        bench.send(JSON.stringify({ id, ask: name, with: what }));
        const answer = (): string | undefined => texts.find((text) => text.startsWith(`{"id":${id},`));
        return expect
          .poll(answer, { timeout: 20_000 })
          .toBeDefined()
          .then(() => JSON.parse(answer() ?? ''));
      };
      expect(await ask(1, 'bench.about')).toMatchObject({ result: { ok: true, value: { simulated: true } } });
      expect(await ask(2, 'gauges.list')).toMatchObject({
        result: { ok: true, value: [{ label: 'Indicator' }, { label: 'Torque gauge' }] },
      });
      await expect.poll(() => texts.some((text) => text.includes('"topic":"heard"')), { timeout: 20_000 }).toBe(true);
      // The thread for backups is a program of its own beside it.
      expect(await ask(3, 'backups.choose', { folder: temporaryFolder() })).toMatchObject({ result: { ok: true } });
      expect(await ask(4, 'backups.make')).toMatchObject({ result: { ok: true, value: { last: { builds: 0 } } } });
    } finally {
      bench.kill();
    }
  });
});
