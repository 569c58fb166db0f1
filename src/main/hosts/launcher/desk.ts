import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fail, ok, type Result } from '../../../shared/basics/result.ts';
import { interruption } from '../../interruption.ts';
import { electronProgram } from '../electron/program.ts';
import { installation } from '../installation.ts';
import { hasScreen } from './desktop.ts';
import { type BrowserDesk, openInBrowser } from './inBrowser.ts';

interface DeskOptions extends BrowserDesk {
  /** In the browser even where there is a window for it. */
  readonly browser: boolean;
}

/**
 * Opens the bench for a person and settles when they are done with it: in Electron where it can be had, else the same
 * screens in the browser. A package brings no Electron.
 */
export async function openDesk(options: DeskOptions): Promise<Result<void>> {
  const inBrowser = options.browser || options.alone || installation.bundled;
  const program = inBrowser ? undefined : await windowProgram(options.say);
  return program === undefined ? openInBrowser(options) : inElectron(program, options);
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
