import { createPrivateKey } from 'node:crypto';
import { randomSession } from '../../../hardware-sim/hands/stations.ts';
import { seeded } from '../../../hardware-sim/seeded.ts';
import { measuringHash } from '../../../src/main/certificate/measuring.ts';
import type { Issue } from '../../../src/main/certificate/pdf.ts';
import { gatherReadings } from '../../../src/main/certificate/readings.ts';
import { csvLine } from '../../../src/main/journal/csv.ts';
import type { JournalRow } from '../../../src/main/journal/entry.ts';
import { measuredFrom } from '../../../src/main/journal/measured.ts';
import type { Identity } from '../../../src/main/store/identity.ts';
import { fingerprintOf, publicKeyOf, signatureOf } from '../../../src/main/store/signing.ts';
import { certificateData } from '../../../src/shared/job/certifying/certificateData.ts';
import type { Deed, Entry } from '../../../src/shared/job/records/notebook.ts';
import { sessionLines } from '../streams.ts';
import { type Whole, wholeNotebook } from './wholeBuild.ts';

/** A key from its 32 bytes: PKCS #8 puts sixteen bytes before them (RFC 8410). */
export const keyOf = (seed: string) =>
  createPrivateKey({
    key: Buffer.from(`302e020100300506032b657004220420${seed}`, 'hex'),
    format: 'der',
    type: 'pkcs8',
  });

const secret = keyOf('9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60');

/** A bench whose key everybody knows: that of the first test of RFC 8032. */
export const testBench: Identity = {
  bench: { id: 'bench-a', name: 'Bench A', key: publicKeyOf(secret) },
  fingerprint: fingerprintOf(publicKeyOf(secret)),
  sign: (bytes) => signatureOf(bytes, secret),
};

type Sent =
  | { readonly t: number; readonly pedal: 'next' }
  | { readonly t: number; readonly value: number; readonly unit: string };

/** A hand that rocks a few stations, as the journal keeps it from row 1 on: fewer than the 900 that the invented entries name. */
export const rockedRows: readonly JournalRow[] = (
  sessionLines(randomSession(seeded(7), { stations: [4, 4] })) as readonly Sent[]
).map((line, index) => {
  const at = { seq: index + 1, t: line.t, at: 1_767_600_000_000 + Math.round(line.t * 1000) };
  return 'pedal' in line
    ? { ...at, kind: 'pedal', note: line.pedal }
    : { ...at, kind: 'reading', gauge: 'g1', value: line.value, unit: line.unit, raw: Buffer.from(`${line.value}\r`) };
});

/** A whole build whose every backlash is what these readings give; the readings of everything else are not there any more. */
export const measuredNotebook = (whole: Whole): Entry[] =>
  wholeNotebook(whole).map((entry) => ({ ...entry, deed: remeasured(entry.deed) }));

function remeasured(deed: Deed): Deed {
  if (deed.kind !== 'measured' || deed.how.kind !== 'streamed') return deed;
  if (deed.check !== 'backlash') {
    const stretch = { ...deed.how.stretch, from: 5000, to: 5900 };
    return { ...deed, how: { ...deed.how, stretch } };
  }
  const result = measuredFrom(deed.how, () => rockedRows);
  if (!result.ok) throw new Error(result.problem.sentence);
  return { ...deed, result: result.value };
}

/** What a bench would issue for it. Rows of other gauges than the indicator are not there. */
export function issued(entries: readonly Entry[], id = 'b1'): Issue {
  const { csv, index } = gatherReadings(
    entries,
    () => testBench.bench.id,
    ({ gauge, from }) => (gauge === 'g1' && from === 1 ? rockedRows.map(csvLine) : []),
  );
  const around = { bench: testBench.bench, readings: index, measuring: measuringHash() };
  return { data: certificateData({ id, entries: [...entries] }, around), csv };
}
