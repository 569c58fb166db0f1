import {
  type BenchSigning,
  certificateData,
  entriesCertified,
  type Shop,
} from '../../shared/job/certifying/certificateData.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import type { SomeSettings } from '../../shared/contract/settings.ts';
import type { Database } from '../store/database.ts';
import type { Identity } from '../store/identity.ts';
import { originsOf } from '../store/origins.ts';
import { openPhotos } from '../store/photos.ts';
import { openSettings } from '../store/settings.ts';
import { openStretches } from '../store/stretches.ts';
import { canonicalJson } from './hash.ts';
import { logoOf } from './logo.ts';
import { measuringHash } from './measuring.ts';
import type { Issue } from './pdf.ts';
import { gatherReadings } from './readings.ts';
import { dataSignature } from './signature.ts';

/** The certificate of a build as it stands, with its readings, to be signed by this bench. */
export function issueOf(database: Database, notebook: Notebook, identity: Identity): Issue {
  const set = openSettings(database, () => undefined).read();
  const bench = namedAsSet(identity.bench, set);
  const { lines } = openStretches(database, bench.id);
  const photos = openPhotos(database);
  const origins = originsOf(database, notebook.id);
  const entries = entriesCertified(notebook);
  const { csv, index } = gatherReadings(entries, (entry) => origins.get(entry) ?? bench.id, lines);
  return {
    data: certificateData(notebook, { bench, shop: shopOf(set), readings: index, measuring: measuringHash() }),
    csv,
    photoOf: (sha256) => photos.read(sha256),
  };
}

/** The data as one file for other programs: canonical JSON, with the readings and the signature as members beside the data. */
export function jsonOf({ data, csv }: Issue, identity: Identity): string {
  const signature = dataSignature(data.bench.key, canonicalJson(data), identity);
  return canonicalJson({ ...data, readingsCsv: csv, signature });
}

/** This bench under the name that was set for it. */
export const namedAsSet = (bench: BenchSigning, { benchName = '' }: SomeSettings): BenchSigning =>
  benchName.trim() === '' ? bench : { ...bench, name: benchName.trim() };

function shopOf({ shopName = '', shopAddress = '', shopLogo = '' }: SomeSettings): Shop | undefined {
  const [name, address] = [shopName.trim(), shopAddress.trim()];
  const logo = logoOf(shopLogo);
  if (name === '') return undefined;
  return { name, ...(address === '' ? {} : { address }), ...(logo === undefined ? {} : { logo }) };
}
