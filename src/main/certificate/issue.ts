import { certificateData, entriesCertified } from '../../shared/job/certifying/certificateData.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import type { Database } from '../store/database.ts';
import type { Identity } from '../store/identity.ts';
import { originsOf } from '../store/origins.ts';
import { openStretches } from '../store/stretches.ts';
import { canonicalJson } from './hash.ts';
import { measuringHash } from './measuring.ts';
import type { Issue } from './pdf.ts';
import { gatherReadings } from './readings.ts';
import { dataSignature } from './signature.ts';

/** The certificate of a build as it stands, with its readings, to be signed by this bench. */
export function issueOf(database: Pick<Database, 'sql'>, notebook: Notebook, { bench }: Identity): Issue {
  const { lines } = openStretches(database, bench.id);
  const origins = originsOf(database, notebook.id);
  const entries = entriesCertified(notebook);
  const { csv, index } = gatherReadings(entries, (entry) => origins.get(entry) ?? bench.id, lines);
  return { data: certificateData(notebook, { bench, readings: index, measuring: measuringHash() }), csv };
}

/** The data as one file for other programs: canonical JSON, with the readings and the signature as members beside the data. */
export function jsonOf({ data, csv }: Issue, identity: Identity): string {
  const signature = dataSignature(data.bench.key, canonicalJson(data), identity);
  return canonicalJson({ ...data, readingsCsv: csv, signature });
}
