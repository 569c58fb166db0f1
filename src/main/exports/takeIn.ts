import { createHash } from 'node:crypto';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Entry } from '../../shared/job/records/notebook.ts';
import { canonicalJson } from '../certificate/hash.ts';
import { splitReadings } from '../certificate/readings.ts';
import { rowsFromCsv } from '../journal/csv.ts';
import type { Database } from '../store/database.ts';
import { type Identity, knownBenches, noteBenchInside } from '../store/identity.ts';
import { openNotebooks } from '../store/notebooks.ts';
import { openStretches, type StretchNamed } from '../store/stretches.ts';
import type { Bundle } from './bundle.ts';

/** What came of taking a build in. */
export interface TakenIn {
  readonly build: string;
  /** Entries and rows of readings that were not here before. */
  readonly entries: number;
  readonly readings: number;
  /** Entries that were here already. */
  readonly already: number;
}

interface TakingIn {
  /**
   * What becomes of a build that has gone on in both places. From a file it is refused, because neither is right; from the archive,
   * which has what both wrote, the entries that are not here are put behind those that are.
   */
  readonly bothWent?: 'refused' | 'joined';
}

/**
 * Takes in a build of another bench: all of it or nothing. Taken in twice it changes nothing the second time; one that has
 * gone on where it came from is continued.
 */
export function takeIn(
  database: Database,
  identity: Identity,
  bundle: Bundle,
  { bothWent = 'refused' }: TakingIn = {},
): Result<TakenIn> {
  const lines = checkedReadings(bundle);
  if (!lines.ok) return lines;
  const photo = bundle.photos.find(({ sha256, jpeg_base64 }) => hashOf(jpeg_base64) !== sha256);
  if (photo !== undefined) return fail(wrongPhoto);
  const notebooks = openNotebooks(database);
  const here = notebooks.read(bundle.build);
  if (here?.ok === false) return here;
  const known = here?.value.entries ?? [];
  const told = bothWent === 'joined' ? notHere(known, bundle) : continued(known, bundle);
  if (!told.ok) return told;
  const fresh = told.value;
  const unfit = notANotebook(database, known, fresh);
  if (unfit !== undefined) return fail(wrongNotebook(unfit));
  // Whoever else writes waits for the transaction: what can be done before it is.
  const stretches = openStretches(database, identity.bench.id);
  const packed = bundle.readings.stretches.flatMap(
    (stretch, index) => stretches.pack(namedOf(stretch), lines.value[index] ?? [], stretch.sha256) ?? [],
  );
  return database.write(() => {
    writeBenches(database, bundle);
    notebooks.takeIn(
      bundle.build,
      fresh.map(({ bench, entry }) => ({ entry, bench: bench === identity.bench.id ? null : bench })),
    );
    writePhotos(database, bundle);
    const readings = packed.reduce((sum, each) => (stretches.keep(each) ? sum + each.rows : sum), 0);
    return { build: bundle.build, entries: fresh.length, readings, already: bundle.entries.length - fresh.length };
  });
}

type Fresh = Result<Bundle['entries']>;

/** The entries behind those that are here; the two notebooks must be the same up to there. */
function continued(known: readonly Entry[], { entries }: Bundle): Fresh {
  const other = known.findIndex((entry, index) => canonicalJson(entry) !== canonicalJson(entries[index]?.entry ?? 0));
  if (other >= 0 && other < entries.length) return fail(wentOnInBoth(other + 1));
  return ok(entries.slice(known.length));
}

/** The entries that are not here, wherever they stand; one that is here must be the same. */
function notHere(known: readonly Entry[], { entries }: Bundle): Fresh {
  const here = new Map(known.map((entry) => [entry.id, canonicalJson(entry)]));
  const other = entries.findIndex(({ entry }) => (here.get(entry.id) ?? canonicalJson(entry)) !== canonicalJson(entry));
  if (other >= 0) return fail(otherHere(other + 1));
  return ok(entries.filter(({ entry }) => !here.has(entry.id)));
}

/** Why these entries, behind those that are here, are no notebook that can be written and read again; undefined where they are. */
function notANotebook({ sql }: Database, known: readonly Entry[], fresh: Bundle['entries']): string | undefined {
  if (known.length === 0 && fresh[0]?.entry.deed.kind !== 'started')
    return 'it does not begin with the start of a build';
  const ids = fresh.map(({ entry }) => entry.id);
  if (new Set(ids).size < ids.length) return 'one of its entries is in it twice';
  const inAny = sql.prepare<[string], { n: number }>('SELECT count(*) AS n FROM notebook_entry WHERE id = ?');
  return ids.some((id) => inAny.get(id)?.n !== 0) ? 'one of its entries belongs to another build here' : undefined;
}

const hashOf = (base64: string): string => createHash('sha256').update(Buffer.from(base64, 'base64')).digest('hex');

function checkedReadings({ readings, readingsCsv }: Bundle): Result<readonly (readonly string[])[]> {
  const split = splitReadings(readingsCsv, readings);
  if ('wrong' in split) return fail(wrongReadings(split.wrong));
  for (const [index, { gauge }] of readings.stretches.entries()) {
    const rows = rowsFromCsv(split.parts[index] ?? [], gauge);
    if (!rows.ok) return rows;
  }
  return ok(split.parts);
}

/** A bench that is known already keeps the name and key it is known by: a bundle is no proof of another. */
function writeBenches(database: Database, { benches }: Bundle): void {
  const known = new Set(knownBenches(database).map(({ id }) => id));
  for (const bench of benches) if (!known.has(bench.id)) noteBenchInside(database, { ...bench, own: false });
}

function writePhotos({ sql }: Database, { photos }: Bundle): void {
  const keep = sql.prepare(
    'INSERT INTO photo (sha256, at, width, height, jpeg) VALUES (?, ?, ?, ?, ?) ON CONFLICT (sha256) DO NOTHING',
  );
  for (const { sha256, at, width, height, jpeg_base64 } of photos)
    keep.run(sha256, at, width, height, Buffer.from(jpeg_base64, 'base64'));
}

const namedOf = ({ bench, gauge, from, to }: StretchNamed): StretchNamed => ({ bench, gauge, from, to });

const wentOnInBoth = (entry: number): Problem => ({
  kind: 'went-on-in-both',
  sentence: `This build is here already and has gone on differently: from entry ${entry} on, the two notebooks are not the same.`,
  remedy: 'Go on with one of the two, and hand the other one on as a file of its own. Nothing was changed here.',
});

const otherHere = (entry: number): Problem => ({
  kind: 'other-entry',
  sentence: `Entry ${entry} of this build is here with other words in it.`,
  remedy: 'Both stay as they are, here and there. Nothing was changed here.',
});

const wrongNotebook = (why: string): Problem => ({
  kind: 'not-a-bundle',
  field: 'FILE',
  sentence: `The notebook in this file does not hold together: ${why}.`,
  remedy: 'Ask for the bundle of the build once more. Nothing was changed here.',
});

const wrongReadings = (why: string): Problem => ({
  kind: 'not-a-bundle',
  field: 'FILE',
  sentence: `The readings in this file do not hold together: ${why}.`,
  remedy: 'Ask for the bundle of the build once more. Nothing was changed here.',
});

const wrongPhoto: Problem = {
  kind: 'not-a-bundle',
  field: 'FILE',
  sentence: 'A photo in this file is not the one that its notebook names.',
  remedy: 'Ask for the bundle of the build once more. Nothing was changed here.',
};
