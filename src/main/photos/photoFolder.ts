import { stat } from 'node:fs/promises';
import { isAbsolute, join } from 'node:path';
import type { Arrival, PhotoFolder } from '../../shared/contract/photos.ts';
import { fail, none, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { PhotoStore } from '../store/photos.ts';
import { goneArrival } from './photoProblems.ts';
import { readPicture } from './readPicture.ts';
import { type FolderSeen, type FolderWatch, noFolder, watchFolder } from './watchFolder.ts';

/** The folder phones put photos into: off until one is chosen, watched again at the next start. */
export interface WatchedFolder {
  state(): Promise<PhotoFolder>;
  choose(folder: string | undefined): Promise<Result<PhotoFolder>>;
  /** The bytes of a picture that is offered at the moment; of nothing else, whatever is asked for. */
  fetch(arrival: Pick<Arrival, 'file' | 'modified_ms'>): Promise<Result<Buffer>>;
  settle(arrival: Pick<Arrival, 'file' | 'modified_ms'>, became: 'kept' | 'put-aside'): Promise<Result<PhotoFolder>>;
  close(): void;
}

interface FolderOptions {
  readonly store: PhotoStore;
  readonly wall_ms: () => number;
  readonly onChange: (state: PhotoFolder) => void;
}

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
      const wrong = folder === undefined ? undefined : await whatIsWrong(folder);
      if (wrong !== undefined) return fail(wrong);
      const chosen = store.choose(folder, wall_ms());
      if (!chosen.ok) return chosen;
      begin();
      const now = await state();
      onChange(now);
      return ok(now);
    },
    async fetch({ file }) {
      // Only what is offered: a page can ask for any name, and must get no file that is nobody's photo.
      const seen = await watched?.watch.look();
      if (watched === undefined || seen?.waiting.some((one) => one.file === file) !== true)
        return fail(goneArrival(file));
      return readPicture(join(watched.folder, file), file);
    },
    async settle({ file, modified_ms }, became) {
      if (watched !== undefined) {
        const settled = store.settle({ folder: watched.folder, file, modified_ms }, became);
        if (!settled.ok) return settled;
      }
      return ok(await state());
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
