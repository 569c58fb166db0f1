import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { BenchSigning } from '../../shared/job/certifying/certificateData.ts';
import { entrySchema } from '../../shared/job/records/notebook.ts';
import { gatherReadings, hashOfLines, stretchOf } from '../certificate/readings.ts';
import { canonicalJson } from '../certificate/hash.ts';
import type { Bundle } from '../exports/bundle.ts';
import type { StretchNamed } from '../store/stretches.ts';
import { type Inside, listOf, type Way } from './connect.ts';
import { hashOf } from './gather.ts';
import { unpackEntry, unpackStretch } from './hold.ts';

/**
 * A build of any bench out of the archive, in the form in which builds go from bench to bench: every entry, photo and stretch
 * held against its hash. Fails where there is none, or where something in it is not what its hash says.
 */
export function fetchBuild(way: Way, id: string): Promise<Result<Bundle>> {
  // One moment of the archive: an entry that comes meanwhile is not there without its readings.
  return way.begin('ISOLATION LEVEL REPEATABLE READ READ ONLY', async (inside): Promise<Result<Bundle>> => {
    const [build] = await inside<{ number: number }[]>`SELECT number FROM build WHERE id = ${id}`;
    if (build === undefined) return fail(notThere(id));
    const entries = await entriesOf(inside, build.number);
    if (!entries.ok) return entries;
    const wrote = new Map(entries.value.map(({ bench, entry }) => [entry.id, bench]));
    const stretches = await stretchesOf(inside, stretchesNamed(entries.value));
    if (!stretches.ok) return stretches;
    const photos = await photosOf(inside, entries.value);
    if (!photos.ok) return photos;
    const linesOf = (stretch: StretchNamed): readonly string[] => stretches.value.get(nameOf(stretch)) ?? [];
    const { csv, index } = gatherReadings(
      entries.value.map(({ entry }) => entry),
      (entry) => wrote.get(entry) ?? '',
      linesOf,
    );
    const named = new Set([...wrote.values(), ...index.stretches.map(({ bench }) => bench)]);
    const benches = await benchesOf(inside, [...named]);
    const about = { kind: 'axlewright-bundle', version: 1, build: id } as const;
    return ok({ ...about, benches, entries: entries.value, readings: index, readingsCsv: csv, photos: photos.value });
  });
}

interface EntryRow {
  readonly id: string;
  readonly bench: string;
  readonly format: number;
  readonly sha256: Buffer;
  readonly body: Buffer;
}

/** In the order of their places; two at one place were written by two benches that knew nothing of each other. */
async function entriesOf(inside: Inside, build: number): Promise<Result<Bundle['entries']>> {
  const rows = await inside<EntryRow[]>`
    SELECT entry.id, coalesce(wrote, bench.id) AS bench, format, sha256, body FROM entry
    JOIN bench ON bench.number = sent_by WHERE build = ${build} ORDER BY place, entry.id COLLATE "C"`;
  const entries: Bundle['entries'] = [];
  for (const { id, bench, format, sha256, body } of rows) {
    const json = unpackEntry(format, body);
    if (json === undefined || !hashOf(json).equals(sha256)) return fail(damaged(`entry ${id}`));
    const entry = entrySchema.safeParse(JSON.parse(json));
    if (!entry.success || canonicalJson(entry.data) !== json || entry.data.id !== id) return fail(laterEntry(id));
    entries.push({ bench, entry: entry.data });
  }
  return ok(entries);
}

const nameOf = ({ bench, gauge, from, to }: StretchNamed): string => JSON.stringify([bench, gauge, from, to]);

interface StretchRow extends Pick<StretchNamed, 'bench' | 'gauge'> {
  readonly from: string;
  readonly to: string;
  readonly format: number;
  readonly sha256: Buffer;
  readonly body: Buffer;
}

/** The stretches that entries rest on, by their own names: one kept from before may belong to another build. */
const stretchesNamed = (entries: Bundle['entries']): readonly StretchNamed[] =>
  entries.flatMap(({ bench, entry: { deed } }) => {
    const stretch = stretchOf(deed);
    return stretch === undefined ? [] : [{ ...stretch, bench: stretch.bench ?? bench }];
  });

async function stretchesOf(
  inside: Inside,
  named: readonly StretchNamed[],
): Promise<Result<ReadonlyMap<string, readonly string[]>>> {
  if (named.length === 0) return ok(new Map());
  const rows = await inside<StretchRow[]>`
    SELECT DISTINCT bench, gauge, from_seq AS "from", to_seq AS "to", format, sha256, body FROM stretch
    JOIN jsonb_to_recordset(${JSON.stringify(named.map(({ bench: b, gauge: g, from: f, to: t }) => ({ b, g, f, t })))}::text::jsonb)
      AS asked (b text, g text, f bigint, t bigint)
      ON bench = b AND gauge = g AND from_seq = f AND to_seq = t`;
  const lines = new Map<string, readonly string[]>();
  for (const { bench, gauge, format, sha256, body, ...ends } of rows) {
    const [from, to] = [Number(ends.from), Number(ends.to)];
    const part = unpackStretch(format, body);
    if (part === undefined || hashOfLines(part) !== sha256.toString('hex'))
      return fail(damaged(`readings ${from} to ${to} of gauge ${gauge}`));
    lines.set(nameOf({ bench, gauge, from, to }), part);
  }
  return ok(lines);
}

async function photosOf(inside: Inside, entries: Bundle['entries']): Promise<Result<Bundle['photos']>> {
  const named = new Map(
    entries.flatMap(({ entry: { deed } }) =>
      deed.kind === 'photographed' ? [[deed.photo.sha256, deed.photo] as const] : [],
    ),
  );
  const photos: Bundle['photos'] = [];
  for (const photo of named.values()) {
    const sha256 = Buffer.from(photo.sha256, 'hex');
    const [row] = await inside<{ at: string; jpeg: Buffer }[]>`SELECT at, jpeg FROM photo WHERE sha256 = ${sha256}`;
    if (row === undefined) continue;
    if (!hashOf(row.jpeg).equals(sha256)) return fail(damaged(`photo ${photo.sha256.slice(0, 12)}`));
    photos.push({ ...photo, at: row.at, jpeg_base64: row.jpeg.toString('base64') });
  }
  return ok(photos);
}

const benchesOf = async (inside: Inside, ids: readonly string[]): Promise<BenchSigning[]> => [
  ...(await inside<BenchSigning[]>`
    SELECT DISTINCT ON (bench.id) bench.id, name, key FROM bench JOIN bench_called ON bench_called.bench = bench.number
    WHERE bench.id IN ${listOf(inside, ids)} ORDER BY bench.id, bench_called.number DESC`),
];

/** The papers of a build's certificates, as they were signed. */
export async function papersOf(
  way: Way,
  id: string,
): Promise<readonly { readonly name: string; readonly pdf: Buffer }[]> {
  const rows = await way<{ name: string; sha256: Buffer; pdf: Buffer }[]>`
    SELECT name, sha256, pdf FROM certificate WHERE build = (SELECT number FROM build WHERE id = ${id})`;
  return rows.filter(({ sha256, pdf }) => hashOf(pdf).equals(sha256));
}

const notThere = (id: string): Problem => ({
  kind: 'no-build',
  field: 'build',
  sentence: `There is no build ${id} in the archive.`,
  remedy: 'Choose one that archive find lists.',
});

const damaged = (what: string): Problem => ({
  kind: 'archive-damaged',
  sentence: `In the archive ${what} is not what its hash says.`,
  remedy:
    'Nothing was taken over. Bring the archive back from its backup, or take the build from the bench that wrote it.',
});

const laterEntry = (id: string): Problem => ({
  kind: 'unreadable',
  sentence: `Entry ${id} of this build was written by a later version of the bench.`,
  remedy: 'Put the newer program in here. Nothing was taken over.',
});
