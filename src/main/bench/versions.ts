import { readFileSync, statSync } from 'node:fs';
import { isAbsolute } from 'node:path';
import { contentHash } from '../certificate/hash.ts';
import { boundedJson } from '../boundedJson.ts';
import { codeOf } from '../store/databaseProblem.ts';
import { type Version, versionListSchema } from '../../shared/contract/about.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { isNear } from './reach.ts';

const largest_bytes = 200_000;
const longest_ms = 10_000;

/** The versions in a list, the newest first. Fails where it is none, or not as it was written. */
export function versionsIn(bytes: Uint8Array): Result<readonly Version[]> {
  const list = versionListSchema.safeParse(boundedJson(bytes));
  if (!list.success) return fail(noList);
  if (contentHash(list.data.versions) !== list.data.sha256) return fail(changed);
  return ok(list.data.versions.toSorted((a, b) => compareVersions(b.version, a.version)));
}

/** Negative where the first is older, by its numbers; words that are no version are older than any. */
export function compareVersions(a: string, b: string): number {
  const [left, right] = [numbersOf(a), numbersOf(b)];
  const at = left.findIndex((each, place) => each !== right[place]);
  return at === -1 ? 0 : (left[at] ?? 0) - (right[at] ?? 0);
}

const numbersOf = (version: string): readonly number[] =>
  /^\d+\.\d+\.\d+$/u.test(version) ? version.split('.').map(Number) : [-1, 0, 0];

/** The bytes at a path of this computer, or at an address in the network it stands in. */
export const bytesAt = (place: string): Promise<Result<Uint8Array>> =>
  /^https?:\/\//iu.test(place) ? fetched(place) : Promise.resolve(inFile(place));

function inFile(path: string): Result<Uint8Array> {
  if (!isAbsolute(path)) return fail(noPath(path));
  try {
    const { size } = statSync(path);
    // A pipe would be waited for without a word.
    return statSync(path).isFile() && size <= largest_bytes ? ok(readFileSync(path)) : fail(noList);
  } catch (error) {
    return fail(notRead(path, codeOf(error)));
  }
}

/** No further than the network of this machine: a page that was taken over could otherwise carry records out in an address. */
async function fetched(address: string): Promise<Result<Uint8Array>> {
  if (!URL.canParse(address)) return fail(noPath(address));
  const { hostname } = new URL(address);
  if (!isNear(hostname)) return fail(tooFar(hostname));
  try {
    const answer = await fetch(address, { redirect: 'error', signal: AbortSignal.timeout(longest_ms) });
    if (!answer.ok || answer.body === null) return fail(notRead(address, `answer ${answer.status}`));
    const pieces: Uint8Array[] = [];
    let length = 0;
    for await (const piece of answer.body) {
      length += piece.length;
      if (length > largest_bytes) return fail(noList);
      pieces.push(piece);
    }
    return ok(Buffer.concat(pieces));
  } catch (error) {
    return fail(notRead(address, error instanceof Error && error.name === 'TimeoutError' ? 'no answer in 10 s' : ''));
  }
}

const field = 'at';

const noList: Problem = {
  kind: 'no-version-list',
  field,
  sentence: 'What lies there is no list of versions of Axlewright.',
  remedy: 'Give the file versions.json that comes with a newer version.',
};

const changed: Problem = {
  kind: 'no-version-list',
  field,
  sentence: 'That list of versions was cut or changed since it was written.',
  remedy: 'Copy it there anew.',
};

const noPath = (place: string): Problem => ({
  kind: 'no-place',
  field,
  sentence: `"${place}" is neither a whole path on this computer nor an address.`,
  remedy: 'Give a path from its beginning, or an address like http://shop-server/versions.json.',
});

const notRead = (place: string, why: string): Problem => ({
  kind: 'not-read',
  field,
  sentence: `${place} could not be read${why === '' ? '' : ` (${why})`}.`,
  remedy: 'Check that it is there and that this computer may read it.',
});

const tooFar = (host: string): Problem => ({
  kind: 'too-far',
  field,
  sentence: `${host} lies outside the network of this machine, and nothing is asked for out there.`,
  remedy: 'Lay the list on this computer or on one in your own network.',
});
