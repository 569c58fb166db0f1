import type { Way } from './connect.ts';
import { isCollision, isOfTheData } from './problems.ts';
import { notHeld, type Put, putLoad } from './put.ts';
import type { Load } from './sending.ts';

export const nothingPut: Put = { entries: 0, readings: 0, photos: 0, newest: undefined, refused: [], beside: [] };

/** So often one of two benches that stood in each other's way begins its load again. */
const tries = 5;

/**
 * Puts a load into the archive, whatever is in it. Where there is something that the server cannot hold, it goes in halves until
 * that stands alone and is refused: one bent entry keeps no other from the archive.
 * @throws what the network or the server say
 */
export async function putWhole(way: Way, me: number, load: Load): Promise<Put> {
  for (let left = tries; ; left -= 1) {
    try {
      return await putLoad(way, me, load);
    } catch (error) {
      if (isOfTheData(error)) return putInParts(way, me, load, error.message);
      if (left === 0 || !isCollision(error)) throw error;
    }
  }
}

async function putInParts(way: Way, me: number, load: Load, why: string): Promise<Put> {
  const [only] = load.entries;
  const parts = partsOf(load);
  // A line of the list that cannot be held is left out: it is worked out from the entries, and they are there.
  if (parts.length === 0) return only === undefined ? nothingPut : { ...nothingPut, refused: [notHeld(only, why)] };
  let put = nothingPut;
  // One after the other, in their order: entries before the lines of the list.
  for (const part of parts) put = together(put, await putWhole(way, me, part));
  return put;
}

/** Smaller loads of the same; none where it is one thing alone. */
function partsOf({ entries, summaries }: Load): readonly Load[] {
  if (entries.length > 0 && summaries.length > 0)
    return [
      { entries, summaries: [] },
      { entries: [], summaries },
    ];
  return [
    ...halves(entries).map((half) => ({ entries: half, summaries: [] })),
    ...halves(summaries).map((half) => ({ entries: [], summaries: half })),
  ];
}

function halves<T>(all: readonly T[]): readonly (readonly T[])[] {
  const middle = Math.floor(all.length / 2);
  return all.length < 2 ? [] : [all.slice(0, middle), all.slice(middle)];
}

const together = (one: Put, other: Put): Put => ({
  entries: one.entries + other.entries,
  readings: one.readings + other.readings,
  photos: one.photos + other.photos,
  newest: other.newest ?? one.newest,
  refused: [...one.refused, ...other.refused],
  beside: [...one.beside, ...other.beside],
});
