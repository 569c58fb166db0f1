// The Electron program: composition only. Everything it decides is in decisions.ts and host.ts.
import { homedir } from 'node:os';
import { join } from 'node:path';
import * as electron from 'electron';
import { dataFolder } from '../launcher/desktop.ts';
import { listPageFiles } from '../pageFiles.ts';
import { declareScheme, openHost } from './host.ts';

declareScheme(electron);
// Every window there may ever be, not only the one whose options say so.
electron.app.enableSandbox();
// Kept on this machine, for whoever is to find out; sent nowhere.
electron.crashReporter.start({ uploadToServer: false });

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
    benchArguments: ['--data', recordsFolder(), ...process.argv.filter((word) => word === '--simulate')],
  });
}

/** The folder that everything else uses too: an icon must not open other records than `npm start`. */
function recordsFolder(): string {
  const at = process.argv.indexOf('--data');
  return (at >= 0 ? process.argv[at + 1] : undefined) ?? dataFolder(process.platform, process.env, homedir());
}

// One window is one bench: a second start would want the same database.
if (electron.app.requestSingleInstanceLock()) void start();
else electron.app.quit();
