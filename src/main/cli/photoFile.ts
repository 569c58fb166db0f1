import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import { isJpeg, orientationOf } from '../../shared/axle/mark/jpegSegments.ts';
import { mostPixels, type PictureSize, refusedByHead } from '../../shared/axle/mark/pictureHead.ts';
import type { Photo } from '../../shared/axle/mark/photo.ts';
import { upright } from '../../shared/axle/mark/upright.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { readBytes } from './wholeFile.ts';

/** No photo of a tooth needs to be larger; the bench takes the same. */
const largestPhoto_MB = 60;

/** A photo from a file, upright. What else the camera wrote, its place among it, is not looked at. */
export function readPhoto(path: string, option: string): Result<Photo> {
  const bytes = readBytes({ path, option, most_MB: largestPhoto_MB });
  return bytes.ok ? decodePhoto(bytes.value, path, option) : bytes;
}

function decodePhoto(bytes: Uint8Array, path: string, option: string): Result<Photo> {
  const refused = refusedByHead(bytes);
  if (refused?.why === 'too-many-pixels')
    return fail(unreadableFile(option, tooLarge(path, refused.size), 'Give one of ordinary size.'));
  if (refused?.why === 'cut-off')
    return fail(unreadableFile(option, `${path} is cut off or damaged.`, 'Copy it from the camera again.'));
  try {
    if (isJpeg(bytes)) {
      const picture = jpeg.decode(bytes, {
        useTArray: true,
        maxResolutionInMP: mostPixels / 1e6,
        maxMemoryUsageInMB: 1024,
      });
      return ok(upright(picture, orientationOf(bytes)));
    }
    if (bytes[0] === 0x89 && bytes[1] === 0x50) return ok(PNG.sync.read(Buffer.from(bytes)));
  } catch (error) {
    // The decoders throw whatever they stumble over; the file is broken all the same.
    const why = error instanceof Error ? error.message : String(error);
    return fail(unreadableFile(option, `${path} is damaged (${why}).`, 'Copy it from the camera again.'));
  }
  return fail(unreadableFile(option, `${path} is neither a JPEG nor a PNG picture.`, 'Save it as one of these.'));
}

const tooLarge = (path: string, { width, height }: PictureSize): string =>
  `${path} is ${width} by ${height} pixels, more than the ${mostPixels / 1e6} million that are taken.`;

const unreadableFile = (option: string, sentence: string, remedy: string): Problem => ({
  kind: 'photo-unreadable',
  field: option,
  sentence: `${option}: ${sentence}`,
  remedy,
});
