import { readFile } from 'node:fs/promises';
import type * as Electron from 'electron';
import { mediaTypeOf, type PageFiles, securityHeaders } from '../policy.ts';
import { channels } from './channels.ts';
import {
  appFile,
  appScheme,
  isOwnPage,
  mayAsk,
  mayHavePermission,
  mayNavigate,
  type PermissionAsked,
  startPage,
  windowOpenAnswer,
  windowOptions,
} from './decisions.ts';

/** The parts of Electron this host uses; tests pass a stand-in. */
export type ElectronParts = Pick<
  typeof Electron,
  'app' | 'BrowserWindow' | 'ipcMain' | 'protocol' | 'session' | 'utilityProcess' | 'dialog'
>;

export interface ElectronHostOptions {
  readonly files: PageFiles;
  readonly preload: string;
  /** The bench's own program, run as a utility process so that serial ports and disk never stall a window. */
  readonly benchProgram: string;
  readonly benchArguments: readonly string[];
}

/** Must run before the program is ready: Electron asks for schemes then. */
export function declareScheme(electron: Pick<ElectronParts, 'protocol'>): void {
  electron.protocol.registerSchemesAsPrivileged([
    { scheme: appScheme, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
}

/** Opens the window on the screens and puts the bench behind it. */
export async function openHost(electron: ElectronParts, options: ElectronHostOptions): Promise<void> {
  shutDoors(electron);
  serveScreens(electron, options.files);
  const bench = electron.utilityProcess.fork(options.benchProgram, [...options.benchArguments], {
    serviceName: 'Axlewright bench',
  });
  const window = new electron.BrowserWindow(windowOptions(options.preload));
  relay(electron, bench, window);
  window.once('ready-to-show', () => window.show());
  electron.app.on('window-all-closed', () => electron.app.quit());
  await window.loadURL(startPage);
}

function shutDoors(electron: ElectronParts): void {
  const { session, app } = electron;
  session.defaultSession.setPermissionRequestHandler((_contents, permission, answer, details) =>
    answer(mayHavePermission(askedByRequest(permission, details))),
  );
  session.defaultSession.setPermissionCheckHandler((_contents, permission, origin, details) =>
    mayHavePermission({
      permission,
      from: origin,
      media: details.mediaType === undefined ? [] : [details.mediaType],
      isTopFrame: details.isMainFrame,
    }),
  );
  app.on('web-contents-created', (_event, contents) => {
    contents.setWindowOpenHandler(windowOpenAnswer);
    contents.on('will-navigate', (event) => {
      if (!mayNavigate(event.url)) event.preventDefault();
    });
    contents.on('will-attach-webview', (event) => event.preventDefault());
  });
}

type RequestDetails = Parameters<NonNullable<Parameters<Electron.Session['setPermissionRequestHandler']>[0]>>[3];

/** What a request of Electron's says, in the terms in which it is decided. */
const askedByRequest = (permission: string, details: RequestDetails): PermissionAsked => ({
  permission,
  from: details.requestingUrl,
  media: 'mediaTypes' in details ? (details.mediaTypes ?? []) : [],
  isTopFrame: details.isMainFrame,
});

function serveScreens(electron: ElectronParts, files: PageFiles): void {
  electron.protocol.handle(appScheme, async (request) => {
    const answer = appFile(files, request);
    if (answer.status !== 200) return new Response(null, { status: answer.status, headers: securityHeaders() });
    const headers = { ...securityHeaders(), 'content-type': mediaTypeOf(answer.file) };
    return new Response(new Uint8Array(await readFile(answer.file)), { headers });
  });
}

/** Carries texts between page and bench; who may speak is decided here, what it means is decided in the bench. */
function relay(electron: ElectronParts, bench: Electron.UtilityProcess, window: Electron.BrowserWindow): void {
  electron.ipcMain.on(channels.toBench, (event, text: unknown) => {
    const frame = event.senderFrame;
    if (frame !== null && mayAsk({ url: frame.url, isTopFrame: frame.parent === null }, text)) bench.postMessage(text);
  });
  bench.on('message', (text: unknown) => {
    if (typeof text === 'string' && !window.isDestroyed() && isOwnPage(window.webContents.getURL()))
      window.webContents.send(channels.fromBench, text);
  });
  bench.on('exit', (code) => {
    if (window.isDestroyed()) return;
    window.webContents.send(channels.presence, false);
    electron.dialog.showErrorBox(
      'The bench has stopped',
      `It ended with code ${code}. What was recorded is on disk. Close this window and start again.`,
    );
  });
}
