import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import { refusedByHead } from '../../shared/axle/mark/pictureHead.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { goneArrival, noPicture, tooLargeFile, tooManyPixels } from './photoProblems.ts';

const largestFile_bytes = 60 * 1024 * 1024;

/**
 * The bytes of a picture in a folder: of a plain file, not of what a link leads to, and only when it begins as pictures do
 * and its head promises no more pixels than can be decoded.
 * @param name what the file is called in a sentence.
 */
export async function readPicture(path: string, name: string): Promise<Result<Buffer>> {
  // Not on every system; elsewhere the folder's list has left links out.
  const noLinks = constants.O_NOFOLLOW ?? 0;
  // A pipe would be waited for until somebody writes into it.
  const noWaiting = constants.O_NONBLOCK ?? 0;
  const file = await open(path, constants.O_RDONLY | noLinks | noWaiting).catch(() => undefined);
  if (file === undefined) return fail(goneArrival(name));
  try {
    const about = await file.stat();
    if (!about.isFile()) return fail(goneArrival(name));
    if (about.size > largestFile_bytes) return fail(tooLargeFile(name));
    const bytes = await file.readFile();
    const refused = refusedByHead(bytes);
    if (refused === undefined) return ok(bytes);
    return fail(refused.why === 'too-many-pixels' ? tooManyPixels(name, refused.size) : noPicture(name));
  } catch {
    return fail(goneArrival(name));
  } finally {
    await file.close();
  }
}
