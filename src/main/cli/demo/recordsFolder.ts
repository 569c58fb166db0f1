import {
  existsSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { makeFolder } from '../../writeWhole.ts';
import { databaseProblem } from '../../store/databaseProblem.ts';

/** Its name says whose it is; no bench keeps records under it. */
export const demoFolderName = 'demo-records';
const markName = 'made-by-the-demo.txt';
const mark = 'The Axlewright demo made this folder, and erases it when it is run again.\n';

/** What the demo leaves in `out` itself. */
export const demoFiles = {
  pdf: 'certificate.pdf',
  data: 'certificate.json',
  picture: 'certificate-page-1.png',
} as const;

/**
 * A fresh folder for the demo's records inside `out`. What lies there already is erased, and its files are written over,
 * only if an earlier demo made them and left its mark; what is anybody else's is refused, whatever it is called.
 */
export function freshDemoFolder(out: string): Result<string> {
  const folder = join(out, demoFolderName);
  try {
    const foreign = existsSync(folder)
      ? [folder].filter((one) => !isOurs(one))
      : Object.values(demoFiles)
          .map((name) => join(out, name))
          .filter((file) => existsSync(file));
    if (foreign[0] !== undefined) return fail(notOurs(foreign[0]));
    if (existsSync(folder)) empty(folder);
    else make(folder, out);
    return ok(folder);
  } catch (error) {
    return fail({ ...databaseProblem(error, folder), field: '--out' });
  }
}

/** All but the mark: a demo that was ended in the middle of this is still known as ours. */
function empty(folder: string): void {
  for (const name of readdirSync(folder).filter((one) => one !== markName))
    rmSync(join(folder, name), { recursive: true, force: true });
}

/** Under its name it appears with the mark in it, or not at all. */
function make(folder: string, out: string): void {
  makeFolder(out);
  const made = mkdtempSync(join(out, `.${demoFolderName}-`));
  writeFileSync(join(made, markName), mark, { flag: 'wx' });
  renameSync(made, folder);
}

/** A link is never ours: what it leads to may be anybody's. */
function isOurs(folder: string): boolean {
  if (!lstatSync(folder).isDirectory()) return false;
  try {
    return readFileSync(join(folder, markName), 'utf8') === mark;
  } catch {
    return false;
  }
}

const notOurs = (folder: string): Problem => ({
  kind: 'not-ours',
  field: '--out',
  sentence: `--out: ${folder} is there already and was not made by the demo, so it is left as it is.`,
  remedy: 'Name another folder with --out.',
});
