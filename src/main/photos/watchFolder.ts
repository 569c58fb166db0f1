import { type FSWatcher, watch } from 'node:fs';
import { lstat, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Arrival } from '../../shared/contract/photos.ts';
import type { Problem } from '../../shared/basics/result.ts';

export interface FolderSeen {
  readonly waiting: readonly Arrival[];
  readonly problem?: Problem;
}

export interface FolderWatch {
  /** Looks once more, now; what was just dealt with is left out then. */
  look(): Promise<FolderSeen>;
  close(): void;
}

interface WatchOptions {
  readonly folder: string;
  /** Files that were there before are nobody's affair: a phone's folder is full of them. */
  readonly since_ms: number;
  readonly isSettled: (file: string, modified_ms: number) => boolean;
  readonly onChange: (seen: FolderSeen) => void;
  /** A file is whole when it has not changed for this long. */
  readonly settle_ms?: number;
  /** Folders on another machine send no word of what comes; they are looked through again after this long. */
  readonly again_ms?: number;
}

/** What a phone may put there; what a screen cannot show is offered too, so that the screen says why. */
const picture = /\.(?:jpe?g|png|webp|heic|heif|avif)$/iu;
const most = 40;

/** Watches a folder for photos that come. It only reads; a file that is still being written waits until it rests. */
export function watchFolder(options: WatchOptions): FolderWatch {
  const { folder, settle_ms = 700, again_ms = 3000 } = options;
  const resting = restWatch(settle_ms);
  let told = '';
  let closed = false;
  let watcher: FSWatcher | undefined;
  let soon: ReturnType<typeof setTimeout> | undefined;

  async function look(): Promise<FolderSeen> {
    resting.begin();
    const seen = await seenIn(options, (file, is) => resting.rests(file, is));
    const text = JSON.stringify(seen);
    if (!closed && text !== told) {
      told = text;
      options.onChange(seen);
    }
    return seen;
  }

  function lookSoon(wait_ms: number): void {
    clearTimeout(soon);
    if (closed) return;
    soon = setTimeout(() => {
      attend();
      void look().then(() => lookSoon(resting.pending() ? settle_ms : again_ms));
    }, wait_ms);
    soon.unref();
  }

  /** A folder that was not there, or went away with its disk, is watched as soon as it is back. */
  function attend(): void {
    if (watcher !== undefined) return;
    try {
      watcher = watch(folder, { persistent: false }, () => lookSoon(settle_ms / 4));
      watcher.on('error', () => {
        watcher?.close();
        watcher = undefined;
      });
    } catch {
      watcher = undefined;
    }
  }

  attend();
  lookSoon(0);
  return {
    look,
    close() {
      closed = true;
      clearTimeout(soon);
      watcher?.close();
    },
  };
}

/** Which files have stood unchanged for long enough to be whole, and whether one did not yet in this look. */
function restWatch(settle_ms: number) {
  const sizes = new Map<string, { readonly is: string; readonly at: number }>();
  let pending = false;
  return {
    begin: (): void => void (pending = false),
    pending: () => pending,
    rests(file: string, is: string): boolean {
      const before = sizes.get(file);
      const whole = before?.is === is && performance.now() - before.at >= settle_ms;
      if (before?.is !== is) sizes.set(file, { is, at: performance.now() });
      pending ||= !whole;
      return whole;
    },
  };
}

async function seenIn(
  { folder, since_ms, isSettled }: WatchOptions,
  rests: (file: string, is: string) => boolean,
): Promise<FolderSeen> {
  const files = await namesIn(folder);
  if (files === undefined) return { waiting: [], problem: noFolder(folder) };
  const waiting: Arrival[] = [];
  for (const file of files.filter((name) => picture.test(name) && !name.startsWith('.'))) {
    // Not what a link leads to: that may be any file of this user.
    const about = await lstat(join(folder, file)).catch(() => undefined);
    if (about === undefined || !about.isFile()) continue;
    // A copied file keeps the time at which it was taken; when it came here is when its entry changed.
    if (Math.max(about.ctimeMs, about.mtimeMs) < since_ms || isSettled(file, about.mtimeMs)) continue;
    if (rests(file, `${about.size} ${about.mtimeMs}`))
      waiting.push({ file, modified_ms: about.mtimeMs, bytes: about.size });
  }
  return { waiting: waiting.sort((a, b) => b.modified_ms - a.modified_ms).slice(0, most) };
}

const namesIn = (folder: string): Promise<string[] | undefined> => readdir(folder).catch(() => undefined);

export const noFolder = (folder: string): Problem => ({
  kind: 'no-photo-folder',
  field: 'folder',
  sentence: `The folder for photos, ${folder}, is not there or may not be read.`,
  remedy: 'Correct the path, or connect the disk or phone it lies on. It is looked for again by itself.',
});
