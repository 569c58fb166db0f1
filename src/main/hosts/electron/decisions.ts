import type { BrowserWindowConstructorOptions } from 'electron';
import { z } from 'zod';
import { largestMessage_bytes } from '../../../shared/contract/message.ts';
import { fileFor, type PageFiles } from '../policy.ts';

/** Everything the Electron host decides, as data and pure functions, so that it is tested without the Electron binary. */
export const appScheme = 'app';
const appOrigin = 'app://bench';
export const startPage = `${appOrigin}/index.html`;

/** The window, with every door shut that a page of ours does not need. */
export const windowOptions = (preload: string): BrowserWindowConstructorOptions => ({
  width: 1280,
  height: 800,
  minWidth: 960,
  minHeight: 560,
  show: false,
  title: 'Axlewright',
  autoHideMenuBar: true,
  webPreferences: {
    preload,
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    webviewTag: false,
    navigateOnDragDrop: false,
    spellcheck: false,
    // Readings must be heard and cues sounded while another window is in front.
    backgroundThrottling: false,
  },
});

/** Whether an address is a page of this program: scheme and host exactly, not a text that merely begins like it. */
export function isOwnPage(address: string): boolean {
  try {
    const url = new URL(address);
    return url.protocol === `${appScheme}:` && url.host === 'bench';
  } catch {
    return false;
  }
}

/** Nothing here ever leaves the program's own pages. */
export const mayNavigate = isOwnPage;

/** No page opens windows. */
export const windowOpenAnswer = () => ({ action: 'deny' as const });

/** What a page asks to be allowed, as far as the answer depends on it. */
export interface PermissionAsked {
  readonly permission: string;
  /** The page that asks, or its origin. */
  readonly from: string;
  /** For `media`: what it wants to hear or see. */
  readonly media: readonly string[];
  readonly isTopFrame: boolean;
}

/** One permission is granted, to our own page alone: to see through a camera, for photos of the mark. Never to hear. */
export const mayHavePermission = ({ permission, from, media, isTopFrame }: PermissionAsked): boolean =>
  permission === 'media' && isTopFrame && isOwnPage(from) && media.length > 0 && media.every((one) => one === 'video');

/** Whether a message may reach the bench: a text, from the top frame of one of our own pages. */
export const mayAsk = (sender: { readonly url: string; readonly isTopFrame: boolean }, text: unknown): text is string =>
  typeof text === 'string' && text.length <= largestMessage_bytes && sender.isTopFrame && isOwnPage(sender.url);

/** Pages that die oftener than this are told of and not loaded again: they would die for ever. */
const loadAnewEvery_ms = 60_000;

/**
 * What becomes of a window whose page has died.
 * @param since_ms how long ago it was loaded anew the last time; Infinity before the first.
 */
export function afterPageGone(reason: string, since_ms: number): 'nothing' | 'load anew' | 'tell' {
  if (reason === 'clean-exit') return 'nothing';
  return since_ms < loadAnewEvery_ms ? 'tell' : 'load anew';
}

/** What the second start of the program hands to the first. */
const secondStartSchema = z.object({ records: z.string() });

/** The other records that a second start wanted to see; undefined where it wanted the same, or says nothing of ours. */
export function otherRecordsWanted(own: string, said: unknown): string | undefined {
  const wanted = secondStartSchema.safeParse(said).data?.records;
  return wanted === own ? undefined : wanted;
}

/** What `app://` serves: only files of the built screens, only by GET. */
export function appFile(
  files: PageFiles,
  request: { readonly method: string; readonly url: string },
): { readonly status: 200; readonly file: string } | { readonly status: 404 | 405 } {
  if (request.method !== 'GET') return { status: 405 };
  if (!isOwnPage(request.url)) return { status: 404 };
  const file = fileFor(files, new URL(request.url).pathname);
  return file === undefined ? { status: 404 } : { status: 200, file };
}
