import { gunzipSync, gzipSync } from 'node:zlib';
import { z } from 'zod';
import { idSchema, instantSchema } from '../../shared/basics/recorded.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { benchSchema, stretchesSchema } from '../../shared/job/certifying/certificateData.ts';
import { entrySchema } from '../../shared/job/records/notebook.ts';
import { photoSchema } from '../../shared/job/records/photo.ts';
import { boundedJson } from '../boundedJson.ts';
import { gatherReadings } from '../certificate/readings.ts';
import { canonicalJson, contentHash } from '../certificate/hash.ts';
import { namedAsSet } from '../certificate/issue.ts';
import { knownBenches } from '../store/identity.ts';
import { originsOf } from '../store/origins.ts';
import { openSettings } from '../store/settings.ts';
import { openPhotos } from '../store/photos.ts';
import { openStretches } from '../store/stretches.ts';
import type { ExportedFile, Source } from './source.ts';

/** A photo with its bytes. */
const bundledPhotoSchema = z.strictObject({ ...photoSchema.shape, at: instantSchema, jpeg_base64: z.base64() });

/**
 * A build as one file for another bench: its whole notebook, each entry with the bench that wrote it, the readings its
 * measurements rest on, and its photos. It names nobody who only passed it on: taken in elsewhere and exported there, it is
 * the same file.
 */
export const bundleSchema = z.strictObject({
  kind: z.literal('axlewright-bundle'),
  version: z.literal(1),
  build: idSchema,
  /** The benches that wrote in it, as they are known where it was made. */
  benches: z.array(benchSchema),
  entries: z.array(z.strictObject({ bench: idSchema, entry: entrySchema })).min(1),
  readings: stretchesSchema,
  readingsCsv: z.string(),
  photos: z.array(bundledPhotoSchema),
});
export type Bundle = z.infer<typeof bundleSchema>;

/** With its own hash before it, so that one that was cut short or changed on the way is seen. */
const envelopeSchema = z.strictObject({ bundle: z.unknown(), sha256: z.string() });

export function bundleFile({ database, notebook, identity }: Source, title: string): ExportedFile {
  const own = identity.bench.id;
  const origins = originsOf(database, notebook.id);
  const benchOf = (entry: string): string => origins.get(entry) ?? own;
  const { csv, index } = gatherReadings(notebook.entries, benchOf, openStretches(database, own).lines);
  const wrote = new Set([
    ...notebook.entries.map(({ id }) => benchOf(id)),
    ...index.stretches.map(({ bench }) => bench),
  ]);
  const known = knownBenches(database);
  const named = namedAsSet(identity.bench, openSettings(database, () => undefined).read());
  const bundle: Bundle = {
    kind: 'axlewright-bundle',
    version: 1,
    build: notebook.id,
    benches: [...wrote].toSorted().flatMap((id) => {
      const bench = id === own ? named : known.findLast((one) => one.id === id);
      return bench === undefined ? [] : [{ id, name: bench.name, key: bench.key }];
    }),
    entries: notebook.entries.map((entry) => ({ bench: benchOf(entry.id), entry })),
    readings: index,
    readingsCsv: csv,
    photos: photosOf({ database, notebook, identity }),
  };
  const text = canonicalJson({ bundle, sha256: contentHash(bundle) });
  return { name: `${title}-${contentHash(bundle).slice(0, 8)}.axlewright`, bytes: gzipSync(text, { level: 9 }) };
}

/** Every photo that an entry names, whether it stands or was struck, each once. */
function photosOf({ database, notebook }: Source): Bundle['photos'] {
  const store = openPhotos(database);
  const named = notebook.entries.flatMap(({ deed }) => (deed.kind === 'photographed' ? [deed.photo] : []));
  const each = new Map(named.map((photo) => [photo.sha256, photo]));
  return [...each.values()].flatMap((photo) => {
    const [jpeg, at] = [store.read(photo.sha256), store.keptAt(photo.sha256)];
    return jpeg === undefined || at === undefined
      ? []
      : [{ ...photo, at, jpeg_base64: Buffer.from(jpeg).toString('base64') }];
  });
}

/** Of gzip and JSON: a file that unpacks to more than this is none of ours, nor one that shrinks as no readings do. */
const mostBytes = 512 * 1024 * 1024;
const mostGrown = 100;

/** A bundle back from its file. Fails for anything that is not one, whole and unaltered. */
export function readBundle(file: Buffer): Result<Bundle> {
  const text = unpacked(file);
  if (text === undefined) return fail(noBundle('it cannot be unpacked'));
  const envelope = envelopeSchema.safeParse(text);
  if (!envelope.success) return fail(noBundle('it is not written as one'));
  const { bundle, sha256 } = envelope.data;
  if (contentHash(bundle) !== sha256) return fail(noBundle('it was changed or cut short on its way'));
  const read = bundleSchema.safeParse(bundle);
  if (read.success) return ok(read.data);
  const [issue] = read.error.issues;
  return fail(noBundle(`${issue?.path.join('.') ?? 'the whole'}: ${issue?.message ?? 'not as it was written'}`));
}

function unpacked(file: Buffer): unknown {
  try {
    const maxOutputLength = Math.min(mostBytes, mostGrown * file.length + 1024 * 1024);
    return boundedJson(gunzipSync(file, { maxOutputLength }));
  } catch {
    return undefined;
  }
}

const noBundle = (why: string): Problem => ({
  kind: 'not-a-bundle',
  field: 'FILE',
  sentence: `This file is not a build as another bench gives it out: ${why}.`,
  remedy: 'Ask for the bundle of the build once more, and take it over as it is.',
});
