import type { Problem } from '../../shared/basics/result.ts';
import { whoElse } from './beside.ts';
import { type Inside, listOf, type Way } from './connect.ts';
import { entryFormat, stretchFormat } from './hold.ts';
import type { Beside, Refusal } from './notes.ts';
import type { Load, SentEntry, SentStretch, SentSummary } from './sending.ts';

/** What became of a load. */
export interface Put {
  /** Entries, rows of readings and photos that were not there before. */
  readonly entries: number;
  readonly readings: number;
  readonly photos: number;
  /** The last entry that was new. */
  readonly newest: string | undefined;
  readonly refused: readonly Refusal[];
  /** Other benches that wrote in these builds, each with its last entry. */
  readonly beside: readonly Beside[];
}

/**
 * Puts a load into the archive in one transaction: photos, readings and papers before the entries that rest on them, summaries
 * last. What is there already under the same name and hash is left as it is; under another hash it is refused, with what rests on it.
 * @param me the number of the bench that sends.
 */
export function putLoad(way: Way, me: number, load: Load): Promise<Put> {
  const { entries, summaries } = load;
  return way.begin(async (inside) => {
    const builds = await numbersOf(inside, me, load);
    const photos = await putPhotos(inside, me, entries);
    const stretches = await putStretches(inside, me, entries, builds);
    const stand = entries.filter(({ stretch }) => stretch === undefined || !stretches.others.has(nameOf(stretch)));
    await putCertificates(inside, me, stand, builds);
    const put = await putEntries(inside, me, stand, builds);
    await sumUp(inside, me, summaries, builds);
    const refused = [
      ...entries.filter((entry) => !stand.includes(entry)).map((entry) => refusal(entry, otherReadings)),
      ...put.others.map((entry) => refusal(entry, otherEntry)),
    ];
    const beside = await whoElse(inside, me, [...builds.keys()]);
    return { photos, readings: stretches.rows, entries: put.fresh.length, newest: put.fresh.at(-1), refused, beside };
  });
}

type Builds = ReadonlyMap<string, number>;

/** The numbers of builds in this archive; those that are new get one. Sorted, so that two benches never wait for each other in turn. */
async function numbersOf(inside: Inside, me: number, { entries, summaries }: Load): Promise<Builds> {
  const written = new Set(entries.map(({ build }) => build));
  const ids = [...new Set([...written, ...summaries.map(({ build }) => build)])].toSorted();
  const find = (): Promise<{ id: string; number: number }[]> =>
    inside<{ id: string; number: number }[]>`SELECT id, number FROM build WHERE id IN ${listOf(inside, ids)}`;
  const there = await find();
  const known = new Set(there.map(({ id }) => id));
  const fresh = ids.filter((id) => written.has(id) && !known.has(id)).map((id) => ({ id, sent_by: me }));
  if (fresh.length > 0) await inside`INSERT INTO build ${inside(fresh)} ON CONFLICT DO NOTHING`;
  const all = fresh.length > 0 ? await find() : there;
  return new Map(all.map(({ id, number }) => [id, number]));
}

async function putPhotos(inside: Inside, me: number, entries: readonly SentEntry[]): Promise<number> {
  let fresh = 0;
  // One after the other: each may have megabytes.
  for (const { photo } of entries) {
    if (photo === undefined) continue;
    const { sha256, width, height, at, jpeg } = photo;
    if ((await inside`SELECT FROM photo WHERE sha256 = ${sha256}`).length > 0) continue;
    const row = { sha256, sent_by: me, at, width, height, jpeg };
    fresh += (await inside`INSERT INTO photo ${inside(row)} ON CONFLICT DO NOTHING`).count;
  }
  return fresh;
}

const nameOf = ({ bench, gauge, from, to }: Omit<SentStretch, 'rows' | 'sha256' | 'body'>): string =>
  JSON.stringify([bench, gauge, from, to]);

interface StretchesPut {
  readonly rows: number;
  /** Names of those the archive has with other readings. */
  readonly others: ReadonlySet<string>;
}

async function putStretches(
  inside: Inside,
  me: number,
  entries: readonly SentEntry[],
  builds: Builds,
): Promise<StretchesPut> {
  const named = new Map(
    entries.flatMap(({ stretch, build }) =>
      stretch === undefined ? [] : [[nameOf(stretch), { stretch, build }] as const],
    ),
  );
  if (named.size === 0) return { rows: 0, others: new Set() };
  const rows = [...named.values()].map(({ stretch: { from, to, ...stretch }, build }) => ({
    ...stretch,
    from_seq: from,
    to_seq: to,
    build: builds.get(build) ?? 0,
    sent_by: me,
    format: stretchFormat,
  }));
  const fresh = await inside<
    { rows: number }[]
  >`INSERT INTO stretch ${inside(rows)} ON CONFLICT DO NOTHING RETURNING rows`;
  const others = fresh.length === rows.length ? new Set<string>() : await otherStretches(inside, named);
  return { rows: fresh.reduce((sum, { rows: each }) => sum + each, 0), others };
}

async function otherStretches(
  inside: Inside,
  named: ReadonlyMap<string, { readonly stretch: SentStretch }>,
): Promise<ReadonlySet<string>> {
  const others = new Set<string>();
  for (const [name, { stretch }] of named) {
    const { bench, gauge, from, to, sha256 } = stretch;
    const other = await inside`SELECT FROM stretch WHERE bench = ${bench} AND gauge = ${gauge} AND from_seq = ${from}
      AND to_seq = ${to} AND sha256 <> ${sha256}`;
    if (other.length > 0) others.add(name);
  }
  return others;
}

async function putCertificates(
  inside: Inside,
  me: number,
  entries: readonly SentEntry[],
  builds: Builds,
): Promise<void> {
  for (const { id, build, certificate } of entries) {
    if (certificate === undefined) continue;
    const row = { ...certificate, entry: id, build: builds.get(build) ?? 0, sent_by: me };
    await inside`INSERT INTO certificate ${inside(row)} ON CONFLICT DO NOTHING`;
  }
}

interface EntriesPut {
  /** Ids of those that were not there, in their order. */
  readonly fresh: readonly string[];
  /** Those the archive has with other words. */
  readonly others: readonly SentEntry[];
}

async function putEntries(
  inside: Inside,
  me: number,
  entries: readonly SentEntry[],
  builds: Builds,
): Promise<EntriesPut> {
  if (entries.length === 0) return { fresh: [], others: [] };
  const rows = entries.map(({ id, build, place, wrote, sha256, body }) => ({
    id,
    build: builds.get(build) ?? 0,
    place,
    sent_by: me,
    wrote,
    format: entryFormat,
    sha256,
    body,
  }));
  const put = await inside<{ id: string }[]>`INSERT INTO entry ${inside(rows)} ON CONFLICT DO NOTHING RETURNING id`;
  const isFresh = new Set(put.map(({ id }) => id));
  const fresh = entries.filter(({ id }) => isFresh.has(id)).map(({ id }) => id);
  const known = entries.filter(({ id }) => !isFresh.has(id));
  if (known.length === 0) return { fresh, others: [] };
  const there = await hashesOf(
    inside,
    known.map(({ id }) => id),
  );
  return { fresh, others: known.filter(({ id, sha256 }) => there.get(id)?.equals(sha256) === false) };
}

/** The hashes of those entries that are there. What the server cannot hold as text is not there, and is not asked for. */
export async function hashesOf(way: Way | Inside, ids: readonly string[]): Promise<ReadonlyMap<string, Buffer>> {
  const asked = ids.filter((id) => id.isWellFormed() && !id.includes('\0'));
  const rows = await way<
    { id: string; sha256: Buffer }[]
  >`SELECT id, sha256 FROM entry WHERE id IN ${listOf(way, asked)}`;
  return new Map(rows.map(({ id, sha256 }) => [id, sha256]));
}

/** A bench that only passed a build on has nothing to say of it: whoever wrote in it sums it up. In one order, as the builds. */
async function sumUp(inside: Inside, me: number, summaries: readonly SentSummary[], builds: Builds): Promise<void> {
  const told = summaries.flatMap(({ build, record, ...summary }) => {
    const number = builds.get(build);
    return number === undefined ? [] : [{ ...summary, build: number, record: JSON.parse(record) as unknown }];
  });
  if (told.length === 0) return;
  await inside`
    SELECT sum_up(build, ${me}, entries, record, heading, words) FROM (
      SELECT * FROM jsonb_to_recordset(${JSON.stringify(told)}::text::jsonb)
        AS told (build int, entries int, record jsonb, heading text, words text)
      WHERE EXISTS (SELECT FROM entry WHERE entry.build = told.build AND sent_by = ${me}) ORDER BY build OFFSET 0) AS mine`;
}

/** An entry that the server cannot hold, and why it cannot. */
export const notHeld = (entry: Pick<SentEntry, 'id' | 'build'>, why: string): Refusal =>
  refusal(entry, cannotHold(why));

const refusal = ({ id, build }: Pick<SentEntry, 'id' | 'build'>, problem: Problem): Refusal => ({ id, build, problem });

const otherEntry: Problem = {
  kind: 'other-entry',
  sentence: 'The archive has this entry of the notebook with other words in it.',
  remedy: 'Both stay as they are. See with `archive fetch` which of the two is right, and write that into the build.',
};

const otherReadings: Problem = {
  kind: 'other-readings',
  sentence: 'The archive has other readings under the name of those that this entry rests on.',
  remedy: 'Both stay as they are. It happens where a bench was brought back from a backup: measure once more.',
};

const cannotHold = (why: string): Problem => ({
  kind: 'cannot-hold',
  sentence: `The archive cannot hold this entry of the notebook: ${why}.`,
  remedy: 'It stays here alone. Everything else goes on. Save a report in Settings.',
});
