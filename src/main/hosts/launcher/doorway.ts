import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Problem } from '../../../shared/basics/result.ts';
import { writeWhole } from '../../writeWhole.ts';

/** A page on disk that leads to the bench. */
interface Doorway {
  /** What a browser is started with: it holds no token. */
  readonly address: string;
  remove(): void;
}

const fileIn = (folder: string): string => join(folder, 'open-bench.html');

/**
 * Lays a page into the data folder, readable by its owner alone, that leads on to the link of this run. Every user of a
 * machine can read the words a program is started with, so the browser is given this page and not the link with its token.
 * A second start finds the running bench by it. Undefined where the disk refuses: the link that was printed still opens the bench.
 */
export const layDoorway = (folder: string, link: string): Doorway | undefined => lay(fileIn(folder), pageTo(link));

/** The link of the run that laid a doorway into this folder, whether or not it is still going on; undefined without one. */
export function linkIn(folder: string): string | undefined {
  try {
    return /href="(http:\/\/127\.0\.0\.1:\d{1,5}\/#token=[\w-]+)"/u.exec(readFileSync(fileIn(folder), 'utf8'))?.[1];
  } catch {
    return undefined;
  }
}

/** Where the doorway of a running bench lies, for a browser. */
export const addressIn = (folder: string): string => pathToFileURL(fileIn(folder)).href;

/** Lays a page that says why the bench could not be opened: who started it from a menu sees no terminal. */
export const layRefusal = (folder: string, problem: Problem): Doorway | undefined =>
  lay(join(folder, 'axlewright-not-opened.html'), refusalPage(problem));

function lay(file: string, page: string): Doorway | undefined {
  try {
    writeWhole(file, page);
  } catch {
    return undefined;
  }
  return { address: pathToFileURL(file).href, remove: () => rmSync(file, { force: true }) };
}

/** The link is made of a port and base64url: nothing in it needs escaping. */
const pageTo = (link: string): string => `<!doctype html>
<meta charset="utf-8">
<meta name="referrer" content="no-referrer">
<meta http-equiv="refresh" content="0; url=${link}">
<title>Axlewright</title>
<p><a href="${link}">Open the bench</a></p>
`;

const refusalPage = ({ sentence, remedy }: Problem): string => `<!doctype html>
<meta charset="utf-8">
<title>Axlewright</title>
<h1>The bench could not be opened</h1>
<p>${escaped(sentence)}</p>
<p>${escaped(remedy)}</p>
`;

/** A folder's name may hold anything. */
const escaped = (text: string): string => text.replaceAll(/[&<>"]/gu, (sign) => `&#${sign.charCodeAt(0)};`);
