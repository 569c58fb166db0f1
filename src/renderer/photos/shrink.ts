import { mostPixels, refusedByHead } from '../../shared/axle/mark/pictureHead.ts';
import { largestPhoto_bytes, longestSide_px } from '../../shared/axle/mark/photo.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { decodedHeic, looksHeic } from './heic.ts';
import type { Shrunk } from './messages.ts';

/** More than this is no photo of a tooth: about four times what a good phone takes. */
const largestFile_bytes = 60 * 1024 * 1024;
const smallestSide_px = 200;

/** Qualities tried in turn until the picture is small enough; the first is where a reading no longer sees the difference. */
const qualities = [0.9, 0.8, 0.65, 0.5] as const;

/** Makes a photo of any kind that the browser or the decoder for phones' photos knows into a JPEG for the record: upright, shrunk, nothing in it but the picture. */
export async function shrink(file: Blob): Promise<Result<Shrunk>> {
  if (file.size > largestFile_bytes) return fail(tooLarge);
  const bytes = new Uint8Array(await file.arrayBuffer());
  const refused = refusedByHead(bytes);
  if (refused?.why === 'too-many-pixels') return fail(tooManyPixels);
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 32));
  if (refused !== undefined) return fail(whyNotShown(head));
  const whole = (await decoded(file)) ?? (looksHeic(head) ? await decodedHeic(bytes) : undefined);
  if (whole === undefined) return fail(whyNotShown(head));
  const scale = Math.min(1, longestSide_px / Math.max(whole.width, whole.height));
  const [width, height] = [Math.round(whole.width * scale), Math.round(whole.height * scale)];
  if (Math.min(width, height) < smallestSide_px) return fail(tooSmall);
  const small = await createImageBitmap(whole, { resizeWidth: width, resizeHeight: height, resizeQuality: 'high' });
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext('2d')?.drawImage(small, 0, 0);
  for (const quality of qualities) {
    const jpeg = await canvas.convertToBlob({ type: 'image/jpeg', quality });
    if (jpeg.size <= largestPhoto_bytes) return ok({ jpeg, width, height });
  }
  return fail(tooLarge);
}

/** A picture in memory, or undefined where the browser cannot show it. */
export const decoded = (file: Blob): Promise<ImageBitmap | undefined> =>
  createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => undefined);

/** What kind of thing it is instead of a picture, as far as its first bytes tell. */
function whyNotShown(head: string): Problem {
  const looksRight = looksHeic(head) || /^(?:\u00ff\u00d8|\u0089PNG|RIFF.{4}WEBP|.{4}ftypavi)/su.test(head);
  return looksRight ? broken : noPicture;
}

const problem = (kind: string, sentence: string, remedy: string): Problem => ({
  kind,
  field: 'photo',
  sentence,
  remedy,
});

const tooLarge = problem(
  'photo-too-large',
  'The file is larger than 60 MB, which no photo of a tooth needs to be.',
  'Take it with the ordinary camera setting, as JPEG.',
);
const tooManyPixels = problem(
  'photo-too-large',
  `The picture has more than ${mostPixels / 1e6} million pixels, which no photo of a tooth needs.`,
  'Take it with the ordinary camera setting, as JPEG.',
);
const tooSmall = problem(
  'photo-too-small',
  `The picture is smaller than ${smallestSide_px} pixels, too small to hold a tooth.`,
  'Choose the photo itself, not its preview.',
);
const broken = problem(
  'photo-broken',
  'The photo is broken: its file ends early or is damaged.',
  'Send it from the phone once more, or take it again.',
);
const noPicture = problem(
  'photo-unknown',
  'This file is no JPEG, HEIC, PNG or WebP picture.',
  'Choose the photo of one flank, saved as one of these.',
);
