import { EventEmitter } from 'node:events';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { channels } from '../../../../src/main/hosts/electron/channels.ts';
import { startPage } from '../../../../src/main/hosts/electron/decisions.ts';
import { declareScheme, type ElectronParts, openHost } from '../../../../src/main/hosts/electron/host.ts';
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
  } = {
    schemes: [],
    permissions: [],
    sent: [],
    errors: [],
    loaded: [],
    posted: [],
  };
  let serve: ((request: Request) => Promise<Response>) | undefined;
  let permissionCheck: CheckHandler | undefined;
  let address = startPage;
  const app = Object.assign(new EventEmitter(), { quit: () => undefined });
  const bench = Object.assign(new EventEmitter(), { postMessage: (text: unknown) => told.posted.push(text) });
  class BrowserWindow extends EventEmitter {
    webContents = { getURL: () => address, send: (channel: string, text: unknown) => told.sent.push([channel, text]) };
    isDestroyed = () => false;
    show = () => undefined;
    loadURL = async (url: string) => void told.loaded.push(url);
  }
  const ipcMain = new EventEmitter();
  const parts = {
    app,
    BrowserWindow,
    ipcMain,
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
    utilityProcess: { fork: () => bench },
    dialog: { showErrorBox: (title: string) => told.errors.push(title) },
  };
  return {
    parts: parts as unknown as ElectronParts,
    told,
    app,
    bench,
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

async function opened() {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-host-'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Axlewright</title>');
  const files = listPageFiles(folder);
  if (!files.ok) throw new Error(files.problem.sentence);
  const host = standIn();
  declareScheme(host.parts);
  await openHost(host.parts, {
    files: files.value,
    preload: '/preload.cjs',
    benchProgram: '/bench.js',
    benchArguments: [],
  });
  return host;
}

describe('the Electron host, wired to a stand-in', () => {
  it('declares its scheme as secure and opens the screens', async () => {
    const { told } = await opened();
    expect(told.schemes).toMatchObject([{ scheme: 'app', privileges: { secure: true, standard: true } }]);
    expect(told.loaded).toEqual([startPage]);
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
    contents.emit('will-attach-webview', { preventDefault: () => stopped.push('webview') });
    expect(stopped).toEqual(['away', 'webview']);
  });

  it('carries texts of its own page to the bench and back, and no others', async () => {
    const { ipcMain, bench, told, visit } = await opened();
    ipcMain.emit(channels.toBench, { senderFrame: { url: startPage, parent: null } }, '{"id":1}');
    ipcMain.emit(channels.toBench, { senderFrame: { url: 'https://evil.example/', parent: null } }, '{"id":2}');
    ipcMain.emit(channels.toBench, { senderFrame: { url: startPage, parent: {} } }, '{"id":3}');
    ipcMain.emit(channels.toBench, { senderFrame: null }, '{"id":4}');
    expect(told.posted).toEqual(['{"id":1}']);
    bench.emit('message', '{"topic":"heard"}');
    bench.emit('message', { not: 'text' });
    visit('https://evil.example/');
    bench.emit('message', '{"topic":"secret"}');
    expect(told.sent).toEqual([[channels.fromBench, '{"topic":"heard"}']]);
  });

  it('says so when the bench ends', async () => {
    const { bench, told } = await opened();
    bench.emit('exit', 1);
    expect(told.sent).toEqual([[channels.presence, false]]);
    expect(told.errors).toEqual(['The bench has stopped']);
  });
});
