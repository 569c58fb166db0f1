import { useEffect, useState } from 'react';
import { create } from 'zustand';
import type { BenchClient } from '../../shared/contract/contract.ts';
import type { Arrival, PhotoFolder } from '../../shared/contract/photos.ts';
import type { Problem } from '../../shared/basics/result.ts';
import { blobOf } from '../photos/bytes.ts';
import { ask } from './ask.ts';

/** The watched folder and what waits in it; undefined until the bench has answered. */
export const usePhotoFolder = create<{ readonly state: PhotoFolder | undefined }>()(() => ({ state: undefined }));

const lay = (state: PhotoFolder | undefined): boolean => {
  if (state !== undefined) usePhotoFolder.setState({ state });
  return state !== undefined;
};

export const loadPhotoFolder = async (): Promise<boolean> => lay(await ask('photos.folder', {}));

export const followPhotoFolder = (client: BenchClient): (() => void) =>
  client.hear('photo-folder', (state) => void lay(state));

export const choosePhotoFolder = async (
  folder: string | undefined,
  onProblem?: (problem: Problem) => void,
): Promise<boolean> => lay(await ask('photos.choose-folder', { folder: folder ?? { none: 'none chosen' } }, onProblem));

const named = ({ file, modified_ms }: Arrival) => ({ file, modified_ms });

export async function fetchArrival(arrival: Arrival, onProblem: (problem: Problem) => void): Promise<Blob | undefined> {
  const fetched = await ask('photos.fetch', named(arrival), onProblem);
  return fetched === undefined ? undefined : blobOf(fetched.base64);
}

export const settleArrival = async (arrival: Arrival, became: 'kept' | 'put-aside'): Promise<boolean> =>
  lay(await ask('photos.settle', { ...named(arrival), became }));

/** Stored photos that were shown in this window: what is in a photo never changes. */
const shown = new Map<string, Promise<Blob | undefined>>();
const urls = new Map<string, string>();

export function storedPhoto(sha256: string): Promise<Blob | undefined> {
  const known = shown.get(sha256);
  if (known !== undefined) return known;
  const asked = ask('photos.read', { sha256 }).then((read) => {
    // Not kept as missing: it may come back with the bench.
    if (read === undefined) shown.delete(sha256);
    return read === undefined ? undefined : blobOf(read.jpeg_base64, 'image/jpeg');
  });
  shown.set(sha256, asked);
  return asked;
}

/** An address under which the page can show a stored photo. */
export function usePhotoUrl(sha256: string): string | undefined {
  const [url, setUrl] = useState(() => urls.get(sha256));
  useEffect(() => {
    let there = true;
    void storedPhoto(sha256).then((jpeg) => {
      if (jpeg === undefined) return;
      const known = urls.get(sha256) ?? URL.createObjectURL(jpeg);
      urls.set(sha256, known);
      if (there) setUrl(known);
    });
    return () => {
      there = false;
    };
  }, [sha256]);
  return url;
}
