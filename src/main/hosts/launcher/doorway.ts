import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { writeWhole } from '../../writeWhole.ts';

/** A page on disk that leads to the bench. */
interface Doorway {
  /** What a browser is started with: it holds no token. */
  readonly address: string;
  remove(): void;
}

/**
 * Lays a page into the data folder, readable by its owner alone, that leads on to the link of this run. Every user of a
 * machine can read the words a program is started with, so the browser is given this page and not the link with its token.
 * Undefined where the disk refuses: the link that was printed still opens the bench.
 */
export function layDoorway(folder: string, link: string): Doorway | undefined {
  const file = join(folder, 'open-bench.html');
  try {
    writeWhole(file, pageTo(link));
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
