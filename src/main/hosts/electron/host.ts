import { readFile } from 'node:fs/promises';
import type * as Electron from 'electron';
import { fileHeaders, type PageFiles, securityHeaders } from '../policy.ts';
import { channels } from './channels.ts';
import { type BenchBehindOptions, putBenchBehind } from './benchBehind.ts';
import {
  afterPageGone,
  otherRecordsWanted,
  appFile,
  appScheme,
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
  | 'app'
  | 'BrowserWindow'
  | 'crashReporter'
  | 'ipcMain'
  | 'powerSaveBlocker'
  | 'protocol'
  | 'session'
  | 'utilityProcess'
  | 'dialog'
  | 'safeStorage'
>;

interface ElectronHostOptions extends BenchBehindOptions {
  readonly files: PageFiles;
  readonly preload: string;
  /** Where the records of this window lie. */
  readonly folder: string;
}

/** Must run before the program is ready: Electron asks for schemes then, and no window is made without the sandbox. */
export function beforeReady({ app, crashReporter, protocol }: ElectronParts): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: appScheme, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
  // Every window there may ever be, not only the one whose options say so.
  app.enableSandbox();
  // Kept on this machine, for whoever is to find out; sent nowhere.
  crashReporter.start({ uploadToServer: false });
}

/** Opens the window on the screens and puts the bench behind it. */
export async function openHost(electron: ElectronParts, options: ElectronHostOptions): Promise<void> {
  shutDoors(electron);
  serveScreens(electron, options.files);
  const window = new electron.BrowserWindow(windowOptions(options.preload));
  const bench = putBenchBehind(electron, window, options);
  stayAwake(electron, window);
  tellFaults(electron, window, {
    tell: (fault) => bench.tell({ fault }),
    now_ms: options.now_ms ?? (() => performance.now()),
  });
  standForSecondStart(electron, window, options.folder);
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
    contents.on('will-redirect', (event) => {
      if (!mayNavigate(event.url)) event.preventDefault();
    });
    contents.on('will-attach-webview', (event) => event.preventDefault());
  });
}

/** While something is measured nobody touches a key: the screen stays on for as long as our own page asks for it. */
function stayAwake({ ipcMain, powerSaveBlocker }: ElectronParts, window: Electron.BrowserWindow): void {
  let blocker: number | undefined;
  ipcMain.on(channels.awake, ({ sender, senderFrame }, on: unknown) => {
    if (sender !== window.webContents) return;
    if (!mayAsk({ url: senderFrame?.url ?? '', isTopFrame: senderFrame?.parent === null }, '')) return;
    if (on === true) blocker ??= powerSaveBlocker.start('prevent-display-sleep');
    else if (blocker !== undefined) {
      powerSaveBlocker.stop(blocker);
      blocker = undefined;
    }
  });
}

interface Teller {
  readonly tell: (fault: string) => void;
  readonly now_ms: () => number;
}

/** What goes wrong with the window itself goes into the bench's log; a page that has died is loaded anew. */
function tellFaults(electron: ElectronParts, window: Electron.BrowserWindow, { tell, now_ms }: Teller): void {
  let anew_ms = Number.NEGATIVE_INFINITY;
  electron.app.on('render-process-gone', (_event, _contents, { reason }) => {
    tell(`the window (${reason})`);
    const then = afterPageGone(reason, now_ms() - anew_ms);
    if (then === 'nothing' || window.isDestroyed()) return;
    if (then === 'tell') return electron.dialog.showErrorBox('The screen has stopped', pageStopped);
    anew_ms = now_ms();
    void window.loadURL(startPage);
  });
  electron.app.on('child-process-gone', (_event, { type, reason }) => {
    if (reason !== 'clean-exit') tell(`a helper of the window (${type}, ${reason})`);
  });
  window.on('unresponsive', () => tell('the window (does not answer)'));
  window.on('responsive', () => tell('the window (answers again)'));
}

const pageStopped =
  'It ended twice within a minute. The bench behind it goes on reading the gauges, and what was recorded is on disk. Close this window and start again; the last events are in the folder "log" beside the records.';

/** One window is one bench. Whoever starts the program again gets the window that is there, or is told why it shows other records. */
function standForSecondStart({ app, dialog }: ElectronParts, window: Electron.BrowserWindow, own: string): void {
  app.on('second-instance', (_event, _words, _place, wanted) => {
    if (window.isMinimized()) window.restore();
    window.focus();
    const other = otherRecordsWanted(own, wanted);
    if (other === undefined) return;
    dialog.showErrorBox(
      'The bench is open already',
      `It shows the records in ${own}. Close it, then start it with ${other}.`,
    );
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
    return new Response(new Uint8Array(await readFile(answer.file)), { headers: fileHeaders(answer.file) });
  });
}
