import { readFile, stat } from 'node:fs/promises';
import { basename, isAbsolute, join } from 'node:path';
import type { Arrival, PhotoFolder } from '../../shared/contract/photos.ts';
import { fail, none, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { PhotoStore } from '../store/photos.ts';
import { goneArrival, tooLargeFile } from './photoProblems.ts';
import { type FolderSeen, type FolderWatch, noFolder, watchFolder } from './watchFolder.ts';

/** The folder phones put photos into: off until one is chosen, watched again at the next start. */
export interface WatchedFolder {
  state(): Promise<PhotoFolder>;
  choose(folder: string | undefined): Promise<Result<PhotoFolder>>;
  fetch(arrival: Pick<Arrival, 'file' | 'modified_ms'>): Promise<Result<Buffer>>;
  settle(arrival: Pick<Arrival, 'file' | 'modified_ms'>, became: 'kept' | 'put-aside'): Promise<PhotoFolder>;
  close(): void;
}

interface FolderOptions {
  readonly store: PhotoStore;
  readonly wall_ms: () => number;
  readonly onChange: (state: PhotoFolder) => void;
}

const largestFile_bytes = 60 * 1024 * 1024;

export function openPhotoFolder({ store, wall_ms, onChange }: FolderOptions): WatchedFolder {
  let watched: { readonly folder: string; readonly watch: FolderWatch } | undefined;

  const stateOf = (seen: FolderSeen): PhotoFolder => ({
    folder: watched?.folder ?? none('no folder chosen'),
    waiting: [...seen.waiting],
    ...(seen.problem === undefined ? {} : { problem: seen.problem }),
  });
  const begin = (): void => {
    watched?.watch.close();
    watched = undefined;
    const chosen = store.chosen();
    if (chosen === undefined) return;
    const { folder, since_ms } = chosen;
    const isSettled = (file: string, modified_ms: number) => store.isSettled({ folder, file, modified_ms });
    const watch = watchFolder({ folder, since_ms, isSettled, onChange: (seen) => onChange(stateOf(seen)) });
    watched = { folder, watch };
  };
  const state = async (): Promise<PhotoFolder> => stateOf((await watched?.watch.look()) ?? { waiting: [] });
  begin();
  return {
    state,
    async choose(folder) {
      if (folder !== undefined) {
        const wrong = await whatIsWrong(folder);
        if (wrong !== undefined) return fail(wrong);
      }
      store.choose(folder, wall_ms());
      begin();
      const now = await state();
      onChange(now);
      return ok(now);
    },
    async fetch({ file }) {
      // Only a name in the folder itself: nothing a page sends may walk out of it.
      if (watched === undefined || basename(file) !== file) return fail(goneArrival(file));
      const path = join(watched.folder, file);
      const about = await stat(path).catch(() => undefined);
      if (about === undefined || !about.isFile()) return fail(goneArrival(file));
      if (about.size > largestFile_bytes) return fail(tooLargeFile(file));
      const bytes = await readFile(path).catch(() => undefined);
      return bytes === undefined ? fail(goneArrival(file)) : ok(bytes);
    },
    async settle({ file, modified_ms }, became) {
      if (watched !== undefined) store.settle({ folder: watched.folder, file, modified_ms }, became);
      return state();
    },
    close: () => watched?.watch.close(),
  };
}

async function whatIsWrong(folder: string): Promise<Problem | undefined> {
  if (!isAbsolute(folder)) {
    return {
      kind: 'no-photo-folder',
      field: 'folder',
      sentence: `"${folder}" is not a full path.`,
      remedy: 'Write the path from its beginning, as the file manager shows it.',
    };
  }
  const about = await stat(folder).catch(() => undefined);
  return about?.isDirectory() === true ? undefined : noFolder(folder);
}
