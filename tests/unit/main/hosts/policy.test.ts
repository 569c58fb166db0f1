import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  afterPageGone,
  appFile,
  isOwnPage,
  mayAsk,
  mayHavePermission,
  mayNavigate,
  otherRecordsWanted,
  windowOpenAnswer,
  windowOptions,
} from '../../../../src/main/hosts/electron/decisions.ts';
import { isOwnHost, mayEnter, protocolFor } from '../../../../src/main/hosts/loopback/guard.ts';
import {
  contentSecurityPolicy,
  fileFor,
  fileHeaders,
  mediaTypeOf,
  securityHeaders,
} from '../../../../src/main/hosts/policy.ts';

const files = new Map([
  ['/index.html', '/built/index.html'],
  ['/assets/a.js', '/built/assets/a.js'],
]);

/** Addresses that look like ours to a careless reader. */
const bait = [
  'https://bench/index.html',
  'app://bench.evil/index.html',
  'app://evil/?next=app://bench/index.html',
  'app:bench',
  'https://evil.example/#app://bench',
  'file:///index.html',
  'javascript:alert(1)',
  'data:text/html,app://bench',
  'app://user@evil/bench',
  'http://127.0.0.1/app://bench/',
  '',
];

describe('what a page may do', () => {
  it('may load only its own files and talk only where it is told', () => {
    const policy = contentSecurityPolicy(['ws://127.0.0.1:1']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("connect-src 'self' ws://127.0.0.1:1");
    expect(policy).not.toMatch(/unsafe|\*|https?:/u);
  });

  it('leaves the camera to its own pages, and every other device to nobody', () => {
    expect(securityHeaders()['permissions-policy']).toBe(
      'camera=(self), microphone=(), geolocation=(), usb=(), serial=(), hid=()',
    );
  });

  it('chooses files only from the list, whatever the path says', () => {
    expect(fileFor(files, '/')).toBe('/built/index.html');
    expect(fileFor(files, '/assets/a.js?x=/etc/passwd#y')).toBe('/built/assets/a.js');
    for (const path of [
      '/../package.json',
      '/assets/../../x',
      '//etc/passwd',
      '/assets/%2e%2e/index.html',
      'index.html',
      '',
    ])
      expect(fileFor(files, path)).toBeUndefined();
  });

  it('names media types and guesses none', () => {
    expect(mediaTypeOf('/built/a.js')).toMatch(/^text\/javascript/u);
    expect(mediaTypeOf('/built/a.exe')).toBe('application/octet-stream');
  });
});

describe('the Electron host decides', () => {
  it('a window with every door shut', () => {
    expect(windowOptions('/p.cjs').webPreferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
    });
  });

  it('to load a page that has died anew, but not for ever', () => {
    expect(afterPageGone('crashed', Infinity)).toBe('load anew');
    expect(afterPageGone('oom', 61_000)).toBe('load anew');
    expect(afterPageGone('crashed', 59_000)).toBe('tell');
    expect(afterPageGone('clean-exit', 0)).toBe('nothing');
  });

  it('which records a second start wanted', () => {
    expect(otherRecordsWanted('/a', { records: '/a' })).toBeUndefined();
    expect(otherRecordsWanted('/a', { records: '/b' })).toBe('/b');
    for (const odd of [undefined, null, 7, 'x', [], { records: 7 }, { __proto__: { records: 7 } }])
      expect(otherRecordsWanted('/a', odd)).toBeUndefined();
  });

  it('recognises its own page by scheme and host, not by how the text looks', () => {
    expect(isOwnPage('app://bench/index.html')).toBe(true);
    for (const address of bait) {
      expect(isOwnPage(address), address).toBe(false);
      expect(mayNavigate(address), address).toBe(false);
    }
  });

  it('opens no windows', () => {
    expect(windowOpenAnswer()).toEqual({ action: 'deny' });
  });

  it('lets its own page see through a camera, and grants nothing else to anyone', () => {
    const camera = { permission: 'media', from: 'app://bench/index.html', media: ['video'], isTopFrame: true };
    expect(mayHavePermission(camera)).toBe(true);
    expect(mayHavePermission({ ...camera, from: 'app://bench/' })).toBe(true);
    for (const media of [['audio'], ['video', 'audio'], []])
      expect(mayHavePermission({ ...camera, media })).toBe(false);
    for (const from of bait) expect(mayHavePermission({ ...camera, from }), from).toBe(false);
    expect(mayHavePermission({ ...camera, isTopFrame: false })).toBe(false);
    for (const permission of ['serial', 'geolocation', 'display-capture', 'usb', 'notifications', 'clipboard-read'])
      expect(mayHavePermission({ ...camera, permission }), permission).toBe(false);
  });

  it('lets only texts of the top frame of its own page reach the bench', () => {
    const page = { url: 'app://bench/index.html', isTopFrame: true };
    expect(mayAsk(page, '{}')).toBe(true);
    expect(mayAsk({ ...page, isTopFrame: false }, '{}')).toBe(false);
    expect(mayAsk(page, { id: 1 })).toBe(false);
    expect(mayAsk(page, 'x'.repeat(4 * 1024 * 1024 + 1))).toBe(false);
    for (const url of bait) expect(mayAsk({ url, isTopFrame: true }, '{}'), url).toBe(false);
  });

  it('serves listed files by GET and nothing else', () => {
    expect(appFile(files, { method: 'GET', url: 'app://bench/assets/a.js' })).toEqual({
      status: 200,
      file: '/built/assets/a.js',
    });
    expect(appFile(files, { method: 'POST', url: 'app://bench/' })).toEqual({ status: 405 });
    for (const url of [...bait, 'app://bench/../../etc/passwd', 'app://bench/%2e%2e/x'])
      expect(appFile(files, { method: 'GET', url })).toEqual({ status: 404 });
  });
});

describe('the loopback host lets in', () => {
  const port = 4321;
  const token = 'abc-def';
  const own = { host: `127.0.0.1:${port}`, origin: `http://127.0.0.1:${port}`, protocols: [protocolFor(token)] };

  it('its own page with the token of this run', () => {
    expect(mayEnter(own, port, token)).toBe(true);
    expect(mayEnter({ ...own, host: `localhost:${port}`, origin: `http://localhost:${port}` }, port, token)).toBe(true);
  });

  it.each([
    ['no token', { protocols: [] }],
    ['another token', { protocols: [protocolFor('abc-deg')] }],
    ['a foreign origin', { origin: 'http://evil.example' }],
    ['an origin on another port', { origin: 'http://127.0.0.1:80' }],
    ['no origin', { origin: undefined }],
    ['a foreign name for this machine', { host: `evil.example:${port}` }],
    ['no host', { host: undefined }],
  ])('nobody with %s', (_what, change) => {
    expect(mayEnter({ ...own, ...change }, port, token)).toBe(false);
  });

  it('never a token that differs', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (guess) => {
        fc.pre(guess !== token);
        expect(mayEnter({ ...own, protocols: [protocolFor(guess)] }, port, token)).toBe(false);
      }),
    );
    expect(isOwnHost('127.0.0.1', port)).toBe(false);
  });
});

describe('the worker that opens photos', () => {
  const policyOf = (file: string) => fileHeaders(file)['content-security-policy'];

  it('alone may compile the decoder that it is given', () => {
    expect(policyOf('/out/renderer/assets/readWorker-A1_b-2.js')).toContain("script-src 'self' 'wasm-unsafe-eval';");
    for (const file of [
      'index.html',
      'assets/index-a.js',
      'assets/planWorker-a.js',
      'assets/xreadWorker-a.js',
      'readWorker-a.js.html',
    ])
      expect(policyOf(`/out/renderer/${file}`), file).toContain("script-src 'self';");
  });
});
