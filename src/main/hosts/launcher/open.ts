// `npm start`: the bench in Electron where it can be had, else the same screens in the browser.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { openLoopback } from '../loopback/host.ts';
import { openBenchHere } from '../openBenchHere.ts';
import { listPageFiles } from '../pageFiles.ts';
import { browserCommand, dataFolder, hasScreen } from './desktop.ts';

const root = join(import.meta.dirname, '..', '..', '..', '..');
const say = (sentence: string) => process.stderr.write(`axlewright: ${sentence}\n`);

const { values } = parseArgs({
  options: {
    simulate: { type: 'boolean', default: false },
    data: { type: 'string' },
    browser: { type: 'boolean', default: false },
    port: { type: 'string', default: '0' },
  },
});
const folder = values.data ?? dataFolder(process.platform, process.env, homedir());

const electron = values.browser ? undefined : await electronProgram();
if (electron === undefined) await inBrowser();
else await inElectron(electron);

/** The Electron binary; its package fetches it on first use and throws where it cannot. */
async function electronProgram(): Promise<string | undefined> {
  if (!hasScreen(process.platform, process.env)) {
    say('there is no screen here for a window, so the bench is served to a browser.');
    return undefined;
  }
  try {
    say('looking for Electron; the first time it is downloaded (over 100 MB) …');
    const found: unknown = (await import('electron')).default;
    return typeof found === 'string' ? found : undefined;
  } catch {
    say(
      'Electron is not here and could not be downloaded, so the bench is served to a browser. Once online, npm start fetches it.',
    );
    return undefined;
  }
}

async function inElectron(program: string): Promise<void> {
  const words = [root, '--data', folder, ...(values.simulate ? ['--simulate'] : [])];
  const [code] = (await once(spawn(program, words, { stdio: 'inherit' }), 'exit')) as [number | null];
  process.exitCode = code ?? 1;
}

async function inBrowser(): Promise<void> {
  const files = listPageFiles(join(root, 'out', 'renderer'));
  const bench = files.ok ? await openBenchHere({ folder, simulate: values.simulate }) : files;
  if (!files.ok || !bench.ok) {
    const { problem } = files.ok ? (bench as Extract<typeof bench, { ok: false }>) : files;
    say(`${problem.sentence} ${problem.remedy}`);
    process.exitCode = 1;
    return;
  }
  const host = await openLoopback({ service: bench.value, files: files.value, port: Number(values.port) });
  process.stdout.write(`${host.link}\n`);
  say('open this link in a browser on this machine; Ctrl+C ends the bench.');
  const command = browserCommand(process.platform, process.env, host.link);
  if (command !== undefined)
    spawn(command.program, command.words, { stdio: 'ignore', detached: true })
      .on('error', () => undefined)
      .unref();
  const end = async () => {
    await host.close();
    await bench.value.close();
    process.exit(0);
  };
  process.once('SIGINT', () => void end());
  process.once('SIGTERM', () => void end());
}
