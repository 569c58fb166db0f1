import type { StoredPhoto, PhotoWay } from '../../../../shared/job/records/photo.ts';
import type { Problem } from '../../../../shared/basics/result.ts';
import { base64Of } from '../../../photos/bytes.ts';
import { photoReader } from '../../../photos/reader.ts';
import { keepPhoto } from '../../../stores/notebook.ts';

/** A photo that was shrunk and that the bench could not store yet: it is held here until it can, or is let go by hand. */
export interface Unkept {
  readonly jpeg: Blob;
  readonly from: PhotoWay;
}

export type PhotoTaken = { readonly photo: StoredPhoto } | { readonly problem: Problem; readonly unkept?: Unkept };

/** Takes a photo into the record: shrunk here, stored by the bench. What goes wrong comes back with what is left. */
export async function takePhoto(assembly: string, file: Blob, from: PhotoWay): Promise<PhotoTaken> {
  const small = await photoReader().shrink(file);
  if (!small.ok) return { problem: small.problem };
  return keepTaken(assembly, { jpeg: small.value.jpeg, from });
}

export async function keepTaken(assembly: string, unkept: Unkept): Promise<PhotoTaken> {
  let refused: Problem | undefined;
  const jpeg_base64 = await base64Of(unkept.jpeg);
  const photo = await keepPhoto({ assembly, from: unkept.from, jpeg_base64 }, (problem) => (refused = problem));
  return photo === undefined ? { problem: refused ?? notKept, unkept } : { photo };
}

const notKept: Problem = {
  kind: 'not-kept',
  sentence: 'The bench has not kept the photo.',
  remedy: 'It is still here: try again.',
};
