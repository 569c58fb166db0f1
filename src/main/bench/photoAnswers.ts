import { createHash } from 'node:crypto';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { jpegSizeOf, withoutCameraData } from '../../shared/axle/mark/jpegSegments.ts';
import { longestSide_px } from '../../shared/axle/mark/photo.ts';
import type { StoredPhoto } from '../../shared/job/records/photo.ts';
import type { DeedOf } from '../../shared/job/records/notebook.ts';
import { fail, isNone, ok, type Result } from '../../shared/basics/result.ts';
import type { WatchedFolder } from '../photos/photoFolder.ts';
import { brokenPhoto, noSuchPhoto } from '../photos/photoProblems.ts';
import type { PhotoStore } from '../store/photos.ts';
import { misplaced } from './buildAnswers.ts';
import { type Desk, instant, readBuild, writeEntry } from './writing.ts';

type Names = Extract<keyof BenchAnswers, `photos.${string}`>;

/** Photos of painted teeth: kept with their assembly, shown again, and those that come into a watched folder. */
export function photoAnswers(desk: Desk, photos: PhotoStore, folder: WatchedFolder): Pick<BenchAnswers, Names> {
  return {
    async 'photos.keep'({ build, by, assembly, from, jpeg_base64 }) {
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const known = checked(Buffer.from(jpeg_base64, 'base64'));
      if (!known.ok) return known;
      const { photo, jpeg } = known.value;
      const deed: DeedOf<'photographed'> = { kind: 'photographed', assembly, photo, from };
      const refused = misplaced(notebook.value, deed);
      if (refused !== undefined) return fail(refused);
      const kept = photos.keep(photo, jpeg, instant(desk.clock));
      if (!kept.ok) return kept;
      const written = writeEntry(desk, build, by, deed);
      return written.ok ? ok({ photo, notebook: written.value }) : written;
    },
    async 'photos.read'({ sha256 }) {
      const jpeg = photos.read(sha256);
      return jpeg === undefined ? fail(noSuchPhoto) : ok({ jpeg_base64: jpeg.toString('base64') });
    },
    'photos.folder': async () => ok(await folder.state()),
    'photos.choose-folder': async ({ folder: chosen }) => folder.choose(isNone(chosen) ? undefined : chosen),
    async 'photos.fetch'(arrival) {
      const bytes = await folder.fetch(arrival);
      return bytes.ok ? ok({ base64: bytes.value.toString('base64') }) : bytes;
    },
    'photos.settle': async ({ became, ...arrival }) => folder.settle(arrival, became),
  };
}

/** Whatever a screen sent: only a whole JPEG of a screen's size is stored, and without anything a camera wrote about it. */
function checked(sent: Buffer): Result<{ readonly photo: StoredPhoto; readonly jpeg: Uint8Array }> {
  const jpeg = withoutCameraData(sent);
  const size = jpegSizeOf(jpeg);
  if (size === undefined || Math.max(size.width, size.height) > longestSide_px) return fail(brokenPhoto);
  return ok({ photo: { sha256: createHash('sha256').update(jpeg).digest('hex'), ...size }, jpeg });
}
