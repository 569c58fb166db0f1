// The Electron program: composition only. Everything it decides is in decisions.ts and host.ts.
import { join } from 'node:path';
import * as electron from 'electron';
import { listPageFiles } from '../pageFiles.ts';
import { declareScheme, openHost } from './host.ts';

declareScheme(electron);

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
    benchArguments: ['--data', dataFolder(), ...process.argv.filter((word) => word === '--simulate')],
  });
}

function dataFolder(): string {
  const at = process.argv.indexOf('--data');
  return (at >= 0 ? process.argv[at + 1] : undefined) ?? join(electron.app.getPath('userData'), 'data');
}

// One window is one bench: a second start would want the same database.
if (electron.app.requestSingleInstanceLock()) void start();
else electron.app.quit();
