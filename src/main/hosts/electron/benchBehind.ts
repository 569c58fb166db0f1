import type * as Electron from 'electron';
import type { Problem } from '../../../shared/basics/result.ts';
import { channels } from './channels.ts';
import { isOwnPage, mayAsk } from './decisions.ts';
import { type WordFromBench, type WordToBench, wordFromBenchSchema } from './hostWords.ts';
import { answerOf, systemKeychain } from './keychain.ts';

type BenchParts = Pick<typeof Electron, 'app' | 'ipcMain' | 'utilityProcess' | 'dialog' | 'safeStorage'>;

export interface BenchBehindOptions {
  /** The bench's own program, run as a utility process so that serial ports and disk never stall a window. */
  readonly benchProgram: string;
  readonly benchArguments: readonly string[];
  /** Milliseconds of a clock that does not go back; for tests. */
  readonly now_ms?: () => number;
}

/** A bench that ends by itself is started anew, but not again and again: this often at most. */
const anewEvery_ms = 60_000;
/** How long a bench may take to write what it holds before it is ended. */
const mayTake_ms = 10_000;

/**
 * The bench behind a window: carries texts between them, tells what the bench could not do, starts it anew when it has
 * died, and lets it end in peace. Who may speak is decided here, what it means is decided in the bench.
 */
export function putBenchBehind(
  electron: BenchParts,
  window: Electron.BrowserWindow,
  options: BenchBehindOptions,
): { readonly tell: (word: WordToBench) => void } {
  const now_ms = options.now_ms ?? (() => performance.now());
  const keychain = systemKeychain(electron);
  let bench: Electron.UtilityProcess | undefined;
  let problem: Problem | undefined;
  let ending = false;
  let begun_ms = Number.NEGATIVE_INFINITY;

  const send = (channel: string, what: unknown): void => {
    if (!window.isDestroyed() && isOwnPage(window.webContents.getURL())) window.webContents.send(channel, what);
  };
  const begin = (): void => {
    begun_ms = now_ms();
    bench = electron.utilityProcess.fork(options.benchProgram, [...options.benchArguments], {
      serviceName: 'Axlewright bench',
    });
    bench.on('message', (said: unknown) => {
      if (typeof said === 'string') return send(channels.fromBench, said);
      take(wordFromBenchSchema.safeParse(said).data);
    });
    bench.on('exit', ended);
  };
  const take = (word: WordFromBench | undefined): void => {
    if (word === undefined) return;
    if ('problem' in word) ({ problem } = word);
    else void answerOf(keychain, word).then((answer) => bench?.postMessage(answer));
  };
  const ended = (code: number): void => {
    bench = undefined;
    send(channels.presence, false);
    if (problem !== undefined) electron.dialog.showErrorBox(problem.sentence, problem.remedy);
    if (ending || problem !== undefined) return electron.app.quit();
    if (now_ms() - begun_ms < anewEvery_ms) return tellStopped(electron, code);
    begin();
    send(channels.presence, true);
  };
  electron.ipcMain.on(channels.toBench, (event, text: unknown) => {
    const frame = event.senderFrame;
    if (event.sender !== window.webContents || frame === null) return;
    if (mayAsk({ url: frame.url, isTopFrame: frame.parent === null }, text)) bench?.postMessage(text);
  });
  electron.app.on('before-quit', (event) => {
    if (bench === undefined) return;
    event.preventDefault();
    if (ending) return;
    ending = true;
    const word: WordToBench = { end: true };
    bench.postMessage(word);
    setTimeout(() => bench?.kill(), mayTake_ms).unref();
  });
  begin();
  return { tell: (word) => bench?.postMessage(word) };
}

const tellStopped = (electron: BenchParts, code: number): void =>
  electron.dialog.showErrorBox(
    'The bench has stopped',
    `It ended twice within a minute (code ${code}). What was recorded is on disk. Close this window and start again; the last events are in the folder "log" beside the records.`,
  );
