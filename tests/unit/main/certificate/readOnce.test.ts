import { describe, expect, it } from 'vitest';
import { canonicalJson } from '../../../../src/main/certificate/hash.ts';
import { verifyCertificate } from '../../../../src/main/certificate/verify.ts';
import { backlashReadOnce, runoutReadOnce, torqueReadOnce } from '../../../../src/shared/job/captures/readOnce.ts';
import { contradiction } from '../../../../src/shared/job/certifying/agrees.ts';
import type { CertificateData } from '../../../../src/shared/job/certifying/certificateData.ts';
import type { How } from '../../../../src/shared/job/records/measurement.ts';
import { dataSignature } from '../../../../src/main/certificate/signature.ts';
import {
  backlashBasis as basis,
  described,
  limitsSet,
  measured,
  notebook,
  trial,
} from '../../../support/records/scenario.ts';
import { certificateText } from '../../../support/certificateText.ts';
import { issued, testBench } from '../../../support/records/issued.ts';

const byDial: How = { kind: 'typed', tool: 'Dial indicator', resolution: { value: 0.01, unit: 'mm' } };
const byWrench: How = { kind: 'typed', tool: 'Dial wrench', resolution: { value: 0.1, unit: 'N.m' } };
const torque = { basis: 'starting', seal: 'out', bearings: 'set-up' } as const;
/** A trial of somebody whose gauges send nothing. */
const entries = notebook(
  described,
  limitsSet,
  trial,
  measured('e3', 'backlash', backlashReadOnce({ values: [0.2, 0.21, undefined, 0.19], basis, step: 0.01 }), byDial),
  measured('e3', 'ring-gear-runout', runoutReadOnce(0.04, 0.01), byDial),
  measured('e3', 'pinion-torque', torqueReadOnce(1.4, torque, 0.1), byWrench),
);
const typed = issued(entries);

const signed = (data: object): Buffer =>
  Buffer.from(
    canonicalJson({
      ...data,
      readingsCsv: typed.csv,
      signature: dataSignature(testBench.bench.key, canonicalJson(data), testBench),
    }),
  );

describe('the certificate of readings that were typed', () => {
  it('holds: it has no readings to be worked out again, and its figures follow from each other', async () => {
    expect(contradiction(typed.data)).toBeUndefined();
    expect(await verifyCertificate(signed(typed.data))).toMatchObject({
      ok: true,
      value: { holds: true, recomputed: { none: 'no-readings' }, sameWordsToday: true },
    });
  });

  it('says of each that it was read once, and shows no rocks', () => {
    const said = certificateText({ id: 'b1', entries });
    expect(said).toContain('Each read once off a dial: its doubt is the step of the scale alone.');
    expect(said).toContain('read once off a dial');
    expect(said).toContain('1.40');
  });

  it('does not hold with a mean or a doubt that was put in, even under a right signature', async () => {
    for (const change of [{ mean_mm: 0.21 }, { min_mm: 0.1 }]) {
      const data: CertificateData = {
        ...typed.data,
        notebook: typed.data.notebook.map((entry) =>
          entry.deed.kind === 'measured' && entry.deed.result.kind === 'backlash'
            ? { ...entry, deed: { ...entry.deed, result: { ...entry.deed.result, ...change } } }
            : entry,
        ),
      };
      expect((await verifyCertificate(signed(data))).ok).toBe(false);
    }
  });
});
