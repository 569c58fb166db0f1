import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { fail, ok, type Result } from '../../../shared/basics/result.ts';
import { interruption } from '../../interruption.ts';
import { electronProgram } from '../electron/program.ts';
import { openLoopback } from '../loopback/host.ts';
import { surviveDefects } from '../outermost.ts';
import { installation } from '../installation.ts';
import { openBenchHere } from '../openBenchHere.ts';
import { listPageFiles } from '../pageFiles.ts';
import { browserCommand, hasScreen } from './desktop.ts';
import { layDoorway } from './doorway.ts';

interface DeskOptions {
  /** Where the records live. */
  readonly folder: string;
  readonly simulate: boolean;
  /** In the browser even where there is a window for it. */
  readonly browser: boolean;
  /** Of the loopback host; 0 takes a free one. */
  readonly port: number;
  readonly say: (sentence: string) => void;
  /** Told the link under which a browser on this machine finds the bench. */
  readonly onLink: (link: string) => void;
}

/**
 * Opens the bench for a person and settles when they are done with it: in Electron where it can be had, else the same
 * screens in the browser.
 */
export async function openDesk(options: DeskOptions): Promise<Result<void>> {
  const program = options.browser ? undefined : await windowProgram(options.say);
  return program === undefined ? inBrowser(options) : inElectron(program, options);
}

async function windowProgram(say: DeskOptions['say']): Promise<string | undefined> {
  if (!hasScreen(process.platform, process.env)) {
    say('there is no screen here for a window, so the bench is served to a browser.');
    return undefined;
  }
  say('looking for Electron; the first time it is downloaded (over 100 MB) …');
  const program = await electronProgram();
  if (program === undefined)
    say(
      'Electron is not here and could not be downloaded, so the bench is served to a browser. Once online, npm start fetches it.',
    );
  return program;
}

async function inElectron(program: string, { folder, simulate }: DeskOptions): Promise<Result<void>> {
  const words = [installation.root, '--data', folder, ...(simulate ? ['--simulate'] : [])];
  const interrupted = interruption();
  // What Electron has to say is no answer of ours: it goes to standard error.
  const window = spawn(program, words, { stdio: ['inherit', process.stderr, 'inherit'] });
  void interrupted.happened.then(() => window.kill());
  const [code] = (await once(window, 'exit')) as [number | null];
  interrupted.forget();
  if (code === 0 || interrupted.signal.aborted) return ok(undefined);
  return fail({
    kind: 'window-failed',
    sentence: `The window ended by itself (${code ?? 'by a signal'}).`,
    remedy: 'What it said stands above. The bench also runs in the browser, with --browser.',
  });
}

async function inBrowser({ folder, simulate, port, say, onLink }: DeskOptions): Promise<Result<void>> {
  const files = listPageFiles(join(installation.root, 'out', 'renderer'));
  if (!files.ok) return files;
  const bench = await openBenchHere({ folder, simulate });
  if (!bench.ok) return bench;
  const forget = surviveDefects(bench.value.defect);
  const host = await openLoopback({ service: bench.value, files: files.value, port });
  if (!host.ok) {
    await bench.value.close();
    return host;
  }
  const interrupted = interruption();
  const { link } = host.value;
  onLink(link);
  say('open this link in a browser on this machine; Ctrl+C ends the bench.');
  const doorway =
    browserCommand(process.platform, process.env, '') === undefined ? undefined : layDoorway(folder, link);
  if (doorway !== undefined) showInBrowser(doorway.address);
  await interrupted.happened;
  doorway?.remove();
  await host.value.close();
  const written = await bench.value.close();
  interrupted.forget();
  forget();
  return written;
}

function showInBrowser(link: string): void {
  const command = browserCommand(process.platform, process.env, link);
  if (command === undefined) return;
  spawn(command.program, command.words, { stdio: 'ignore', detached: true })
    .on('error', () => undefined)
    .unref();
}
