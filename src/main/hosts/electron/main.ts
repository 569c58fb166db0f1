// The Electron program: composition only. Everything it decides is in decisions.ts and host.ts.
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import * as electron from 'electron';
import { dataFolder } from '../launcher/desktop.ts';
import { listPageFiles } from '../pageFiles.ts';
import { beforeReady, openHost } from './host.ts';

beforeReady(electron);
const folder = resolve(recordsFolder());

async function start(): Promise<void> {
  await electron.app.whenReady();
  const files = listPageFiles(join(import.meta.dirname, '..', 'renderer'));
  if (!files.ok) {
    electron.dialog.showErrorBox(files.problem.sentence, files.problem.remedy);
    electron.app.quit();
    return;
  }
  await openHost(electron, {
    files: files.value,
    preload: join(import.meta.dirname, '..', 'preload', 'preload.cjs'),
    benchProgram: join(import.meta.dirname, 'benchProcess.js'),
    folder,
    benchArguments: ['--data', folder, ...process.argv.filter((word) => word === '--simulate')],
  });
}

/** The folder that everything else uses too: an icon must not open other records than `npm start`. */
function recordsFolder(): string {
  const at = process.argv.indexOf('--data');
  return (at >= 0 ? process.argv[at + 1] : undefined) ?? dataFolder(process.platform, process.env, homedir());
}

// One window is one bench: a second start would want the same database. The first is told what was wanted.
if (electron.app.requestSingleInstanceLock({ records: folder })) void start();
else {
  process.stderr.write('axlewright: the bench is open already; its window comes to the front.\n');
  electron.app.quit();
}
