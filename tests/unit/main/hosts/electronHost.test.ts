import { EventEmitter } from 'node:events';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { channels } from '../../../../src/main/hosts/electron/channels.ts';
import { startPage } from '../../../../src/main/hosts/electron/decisions.ts';
import { beforeReady, type ElectronParts, openHost } from '../../../../src/main/hosts/electron/host.ts';
import { keychainBefore } from '../../../../src/main/hosts/electron/keychain.ts';
import { listPageFiles } from '../../../../src/main/hosts/pageFiles.ts';

/** A stand-in for Electron that records what the host asks of it. It shows wiring only; nothing here claims that Electron ran. */
function standIn() {
  const told: {
    schemes: unknown[];
    permissions: boolean[];
    sent: [string, unknown][];
    errors: string[];
    loaded: string[];
    posted: unknown[];
    quits: number;
    kills: number;
    blocked: string[];
    crashes: unknown[];
    sandboxed: number;
    front: string[];
    backend: string;
  } = {
    schemes: [],
    permissions: [],
    sent: [],
    errors: [],
    loaded: [],
    posted: [],
    quits: 0,
    kills: 0,
    blocked: [],
    crashes: [],
    sandboxed: 0,
    front: [],
    backend: 'gnome_libsecret',
  };
  let serve: ((request: Request) => Promise<Response>) | undefined;
  let permissionCheck: CheckHandler | undefined;
  let address = startPage;
  const app = Object.assign(new EventEmitter(), {
    quit: () => (told.quits += 1),
    enableSandbox: () => (told.sandboxed += 1),
  });
  const benches: EventEmitter[] = [];
  const fork = () => {
    const bench = Object.assign(new EventEmitter(), {
      postMessage: (text: unknown) => told.posted.push(text),
      kill: () => (told.kills += 1),
    });
    benches.push(bench);
    return bench;
  };
  const sender = { getURL: () => address, send: (channel: string, text: unknown) => told.sent.push([channel, text]) };
  const windows: EventEmitter[] = [];
  class BrowserWindow extends EventEmitter {
    webContents = sender;
    constructor() {
      super();
      windows.push(this);
    }
    isDestroyed = () => false;
    isMinimized = () => true;
    restore = () => told.front.push('restored');
    focus = () => told.front.push('in front');
    show = () => undefined;
    loadURL = async (url: string) => void told.loaded.push(url);
  }
  const ipcMain = new EventEmitter();
  const parts = {
    app,
    BrowserWindow,
    ipcMain,
    crashReporter: { start: (how: unknown) => told.crashes.push(how) },
    protocol: {
      registerSchemesAsPrivileged: (schemes: unknown[]) => told.schemes.push(...schemes),
      handle: (_scheme: string, handler: typeof serve) => (serve = handler),
    },
    session: {
      defaultSession: {
        setPermissionRequestHandler: (handler: RequestHandler) => {
          for (const permission of ['media', 'serial', 'geolocation'])
            handler({}, permission, (yes) => told.permissions.push(yes), {
              requestingUrl: 'https://elsewhere.example/',
              mediaTypes: ['video'],
              isMainFrame: true,
            });
          handler({}, 'media', (yes) => told.permissions.push(yes), {
            requestingUrl: startPage,
            mediaTypes: ['video'],
            isMainFrame: true,
          });
        },
        setPermissionCheckHandler: (handler: CheckHandler) => (permissionCheck = handler),
      },
    },
    powerSaveBlocker: {
      start: (type: string) => told.blocked.push(type),
      stop: (id: number) => void told.blocked.push(`stop ${id}`),
    },
    utilityProcess: { fork },
    dialog: { showErrorBox: (title: string, words: string) => told.errors.push(title, words) },
    // It seals nothing: it turns the letters round.
    safeStorage: {
      getSelectedStorageBackend: () => told.backend,
      isAsyncEncryptionAvailable: async () => told.backend !== 'locked',
      encryptStringAsync: async (text: string) => Buffer.from(text).reverse(),
      decryptStringAsync: async (bytes: Buffer) => {
        if (bytes.length === 0) throw new Error('sealed under another account');
        return { result: bytes.reverse().toString(), shouldReEncrypt: false };
      },
    },
  };
  return {
    parts: parts as unknown as ElectronParts,
    told,
    app,
    sender,
    bench: () => benches.at(-1) ?? new EventEmitter(),
    window: () => windows.at(-1) ?? new EventEmitter(),
    ipcMain,
    serve: (url: string, method = 'GET') => serve?.({ url, method } as Request),
    permissionCheck: (origin: string, mediaType: string) =>
      permissionCheck?.({}, 'media', origin, { mediaType, isMainFrame: true }),
    visit: (url: string) => (address = url),
  };
}

interface PermissionDetails {
  readonly requestingUrl?: string;
  readonly mediaTypes?: readonly string[];
  readonly mediaType?: string;
  readonly isMainFrame: boolean;
}
type RequestHandler = (c: unknown, p: string, answer: (yes: boolean) => void, details: PermissionDetails) => void;
type CheckHandler = (c: unknown, p: string, origin: string, details: PermissionDetails) => boolean;

async function opened(now_ms: () => number = () => 0) {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-host-'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Axlewright</title>');
  const files = listPageFiles(folder);
  if (!files.ok) throw new Error(files.problem.sentence);
  const host = standIn();
  beforeReady(host.parts);
  await openHost(host.parts, {
    files: files.value,
    preload: '/preload.cjs',
    folder: '/records',
    benchProgram: '/bench.js',
    benchArguments: [],
    now_ms,
  });
  return host;
}

describe('the Electron host, wired to a stand-in', () => {
  it('declares its scheme as secure and opens the screens', async () => {
    const { told } = await opened();
    expect(told.schemes).toMatchObject([{ scheme: 'app', privileges: { secure: true, standard: true } }]);
    expect(told.loaded).toEqual([startPage]);
  });

  it('puts every window into the sandbox before there is one, and sends no crash anywhere', async () => {
    const { told } = await opened();
    expect(told.sandboxed).toBe(1);
    expect(told.crashes).toEqual([{ uploadToServer: false }]);
  });

  it('comes to the front at a second start, and says so where other records were wanted', async () => {
    const { app, told } = await opened();
    app.emit('second-instance', {}, [], '/', { records: '/records' });
    app.emit('second-instance', {}, [], '/', 'nothing of ours');
    expect(told.front).toEqual(['restored', 'in front', 'restored', 'in front']);
    expect(told.errors).toEqual([]);
    app.emit('second-instance', {}, [], '/', { records: '/other' });
    expect(told.errors[1]).toMatch(/\/records.*\/other/u);
  });

  it('serves the screens with the strict policy, and nothing else', async () => {
    const { serve } = await opened();
    const page = await serve(startPage);
    expect(page?.status).toBe(200);
    expect(page?.headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(await page?.text()).toContain('Axlewright');
    expect((await serve('app://bench/../../secret'))?.status).toBe(404);
    expect((await serve(startPage, 'POST'))?.status).toBe(405);
  });

  it('denies every permission but its own page the camera', async () => {
    const { told, permissionCheck } = await opened();
    expect(told.permissions).toEqual([false, false, false, true]);
    expect(permissionCheck('app://bench/', 'video')).toBe(true);
    expect(permissionCheck('app://bench/', 'audio')).toBe(false);
    expect(permissionCheck('https://elsewhere.example/', 'video')).toBe(false);
  });

  it('stops navigation away, webviews and new windows', async () => {
    const { app } = await opened();
    let answer: unknown;
    const contents = Object.assign(new EventEmitter(), {
      setWindowOpenHandler(handler: () => unknown) {
        answer = handler();
      },
    });
    app.emit('web-contents-created', {}, contents);
    expect(answer).toEqual({ action: 'deny' });
    const stopped: string[] = [];
    contents.emit('will-navigate', { url: 'https://evil.example/', preventDefault: () => stopped.push('away') });
    contents.emit('will-navigate', { url: startPage, preventDefault: () => stopped.push('home') });
    contents.emit('will-redirect', { url: 'https://evil.example/', preventDefault: () => stopped.push('redirected') });
    contents.emit('will-attach-webview', { preventDefault: () => stopped.push('webview') });
    expect(stopped).toEqual(['away', 'redirected', 'webview']);
  });

  it('carries texts of its own page to the bench and back, and no others', async () => {
    const { ipcMain, bench, told, visit, sender } = await opened();
    const frame = { url: startPage, parent: null };
    ipcMain.emit(channels.toBench, { sender, senderFrame: frame }, '{"id":1}');
    ipcMain.emit(channels.toBench, { sender, senderFrame: { ...frame, url: 'https://evil.example/' } }, '{"id":2}');
    ipcMain.emit(channels.toBench, { sender, senderFrame: { ...frame, parent: {} } }, '{"id":3}');
    ipcMain.emit(channels.toBench, { sender, senderFrame: null }, '{"id":4}');
    ipcMain.emit(channels.toBench, { sender: {}, senderFrame: frame }, '{"id":5}');
    ipcMain.emit(channels.toBench, { sender, senderFrame: frame }, { end: true });
    expect(told.posted).toEqual(['{"id":1}']);
    bench().emit('message', '{"topic":"heard"}');
    bench().emit('message', { not: 'text' });
    visit('https://evil.example/');
    bench().emit('message', '{"topic":"secret"}');
    expect(told.sent).toEqual([[channels.fromBench, '{"topic":"heard"}']]);
  });

  it('keeps the screen on for as long as its own page asks for it', async () => {
    const { ipcMain, told, sender } = await opened();
    const own = { sender, senderFrame: { url: startPage, parent: null } };
    ipcMain.emit(channels.awake, { sender, senderFrame: { url: 'https://evil.example/', parent: null } }, true);
    ipcMain.emit(channels.awake, { ...own, sender: {} }, true);
    expect(told.blocked).toEqual([]);
    for (const on of [true, true, 'on', true, false, false]) ipcMain.emit(channels.awake, own, on);
    expect(told.blocked).toEqual(['prevent-display-sleep', 'stop 1', 'prevent-display-sleep', 'stop 3']);
  });

  it('starts a bench that has died anew, and says so when it dies again at once', async () => {
    let now_ms = 0;
    const { bench, told } = await opened(() => now_ms);
    now_ms = 120_000;
    bench().emit('exit', 1);
    expect(told.sent).toEqual([
      [channels.presence, false],
      [channels.presence, true],
    ]);
    expect(told.errors).toEqual([]);
    bench().emit('message', '{"topic":"heard"}');
    expect(told.sent.at(-1)).toEqual([channels.fromBench, '{"topic":"heard"}']);
    now_ms = 121_000;
    bench().emit('exit', 1);
    expect(told.sent.at(-1)).toEqual([channels.presence, false]);
    expect(told.errors[0]).toBe('The bench has stopped');
  });

  it('shows why a bench has not begun, in the sentence of the bench itself, and quits', async () => {
    const { bench, told } = await opened();
    const problem = { kind: 'database-in-use', sentence: 'It is in use.', remedy: 'Close the other bench.' };
    bench().emit('message', { problem });
    bench().emit('exit', 1);
    expect(told.errors).toEqual(['It is in use.', 'Close the other bench.']);
    expect(told.quits).toBe(1);
  });

  it('asks the keychain of the system for the bench, and none that hides nothing', async () => {
    const { bench, told } = await opened();
    const asked = async (word: object): Promise<unknown> => {
      bench().emit('message', word);
      const count = told.posted.length;
      await vi.waitFor(() => expect(told.posted.length).toBeGreaterThan(count));
      return told.posted.at(-1);
    };
    const turned = Buffer.from('terces').toString('base64');
    expect(await asked({ keychain: 1, seal: 'secret' })).toEqual({ keychain: 1, text: turned });
    expect(await asked({ keychain: 2, open: turned })).toEqual({ keychain: 2, text: 'secret' });
    expect(await asked({ keychain: 3, open: '' })).toEqual({ keychain: 3 });
    told.backend = 'basic_text';
    if (process.platform === 'linux') expect(await asked({ keychain: 4, seal: 'secret' })).toEqual({ keychain: 4 });
    told.backend = 'locked';
    expect(await asked({ keychain: 5, seal: 'secret' })).toEqual({ keychain: 5 });
    expect(JSON.stringify(told.sent)).not.toContain('secret');
  });

  it('gives the bench the keychain behind words, each answer to whoever asked', async () => {
    const asked: number[] = [];
    const { keychain, answer } = keychainBefore((word) => asked.push('keychain' in word ? word.keychain : 0));
    const both = [keychain.seal('one'), keychain.open('two')];
    answer({ keychain: asked[1] ?? 0, text: 'opened' });
    answer({ keychain: asked[0] ?? 0 });
    expect(await Promise.all(both)).toEqual([undefined, 'opened']);
  });

  it('lets the bench write what it holds before the program ends', async () => {
    const { app, bench, told } = await opened();
    const held: string[] = [];
    app.emit('before-quit', { preventDefault: () => held.push('held') });
    app.emit('before-quit', { preventDefault: () => held.push('held') });
    expect(held).toEqual(['held', 'held']);
    expect(told.posted).toEqual([{ end: true }]);
    bench().emit('exit', 0);
    expect(told).toMatchObject({ quits: 1, errors: [] });
    app.emit('before-quit', { preventDefault: () => held.push('not any more') });
    expect(held).toHaveLength(2);
  });

  it('notes what goes wrong with the window, and loads a page that has died anew', async () => {
    const { app, window, told } = await opened();
    app.emit('render-process-gone', {}, {}, { reason: 'crashed' });
    app.emit('child-process-gone', {}, { type: 'GPU', reason: 'killed' });
    app.emit('child-process-gone', {}, { type: 'Utility', reason: 'clean-exit' });
    window().emit('unresponsive');
    window().emit('responsive');
    expect(told.posted).toEqual([
      { fault: 'the window (crashed)' },
      { fault: 'a helper of the window (GPU, killed)' },
      { fault: 'the window (does not answer)' },
      { fault: 'the window (answers again)' },
    ]);
    expect(told.loaded).toEqual([startPage, startPage]);
    expect(told.errors).toEqual([]);
    app.emit('render-process-gone', {}, {}, { reason: 'clean-exit' });
    app.emit('render-process-gone', {}, {}, { reason: 'oom' });
    expect(told.loaded).toHaveLength(2);
    expect(told.errors[0]).toBe('The screen has stopped');
  });
});
