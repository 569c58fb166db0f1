import { z } from 'zod';
import { idSchema, instantSchema, nameSchema, orNone, textSchema } from '../../basics/recorded.ts';
import { phases } from '../records/checkIds.ts';
import { calibrationOn } from '../records/gauge.ts';
import { type Build, readNotebook } from '../records/build.ts';
import { type Entry, entrySchema, type Notebook, standing as standingEntries } from '../records/notebook.ts';
import { sha256Schema } from '../records/photo.ts';
import { limitSchema, rules } from '../records/specSheet.ts';
import type { LimitJudged } from '../checks/judge.ts';
import type { CheckState } from '../checks/readiness.ts';
import { settlings } from '../../measuring/uncertainty/verdict.ts';
import { assessedOf } from './assessed.ts';
import { type Assessed, missingSchema, standings, whatIsMissing } from './missing.ts';

/** Version of the certificate's data; a reader that does not know it must say so. */
export const certificateVersion = 2;

/**
 * The edition: how this program words and draws a certificate. It is raised with a release that changes words or pages;
 * nothing that is hashed changes with it.
 */
export const edition = '5';

/** Ed25519 public key, 32 bytes, base64url (RFC 8037 `x`). */
export const keySchema = z.string().regex(/^[A-Za-z0-9_-]{43}$/u);

/** The bench that signs. */
export const benchSchema = z.strictObject({ id: idSchema, name: nameSchema, key: keySchema });
export type BenchSigning = z.infer<typeof benchSchema>;

/** The shop that stands at the head of a certificate. */
const logoSchema = z.strictObject({
  jpeg_base64: z.base64().max(270_000),
  width: z.int().positive(),
  height: z.int().positive(),
});
export type Logo = z.infer<typeof logoSchema>;
export const shopSchema = z.strictObject({
  name: nameSchema,
  address: textSchema(300).optional(),
  logo: logoSchema.optional(),
});
export type Shop = z.infer<typeof shopSchema>;

/** The readings a measurement rests on: which rows of which bench's journal, and what they hash to. */
const readingsSchema = z.strictObject({
  /** The notebook entries that rest on them. */
  entries: z.array(idSchema).min(1),
  bench: idSchema,
  gauge: idSchema,
  from: z.int().min(0),
  to: z.int().min(0),
  /** How many rows there were; 0 where the journal has lost them. */
  rows: z.int().min(0),
  /** SHA-256 of these rows as lines of the readings' file, without the column that counts the stretches. */
  sha256: sha256Schema,
});
export type StretchHashed = z.infer<typeof readingsSchema>;

const limitJudgedSchema = z.strictObject({
  limit: limitSchema,
  value: orNone(z.number()),
  U95: z.number(),
  verdict: z.enum(['within', 'outside', 'too-close', 'not-measured']),
  closeCall: z.boolean(),
  beyond: z.number().optional(),
  settle: z.enum(settlings).optional(),
  chance: z.number().optional(),
  otherBasis: z.boolean().optional(),
});

const checkJudgedSchema = z.strictObject({
  check: idSchema,
  needed: z.enum(['required', 'optional']),
  standing: z.enum(standings),
  closeCall: z.boolean(),
  limits: z.array(limitJudgedSchema),
  /** The entry of the measurement that counts, and the earlier assembly it was taken on where it carries over. */
  measurement: idSchema.optional(),
  carriedFrom: idSchema.optional(),
  /** How many earlier measurements of this check the notebook keeps. */
  earlier: z.int().min(0),
  overridden: z.boolean(),
});
export type CheckHashed = z.infer<typeof checkJudgedSchema>;

/** SHA-256 of a whole file of readings, and each stretch in it, in their order. */
export const stretchesSchema = z.strictObject({ sha256: sha256Schema, stretches: z.array(readingsSchema) });

const judgedSchema = z.strictObject({
  complete: z.boolean(),
  missing: z.array(missingSchema),
  assemblies: z.array(
    z.strictObject({
      id: idSchema,
      phase: z.enum(phases),
      number: z.int().positive(),
      checks: z.array(checkJudgedSchema),
    }),
  ),
  /** Of each streamed or typed measurement with a gauge on record: whether that was in date. */
  calibration: z.array(z.strictObject({ entry: idSchema, was: z.enum(['in-date', 'past', 'not-stated']) })),
  rule: z.enum(rules),
});
export type Judged = z.infer<typeof judgedSchema>;

/**
 * What a certificate is: the notebook, what was judged from it as codes and numbers, and the hashes of the readings. It has
 * no word of its own: pages are drawn from it by an edition, and another edition draws the same data in other words.
 */
export const certificateSchema = z.strictObject({
  kind: z.literal('axlewright-certificate'),
  version: z.literal(certificateVersion),
  edition: textSchema(40).min(1),
  bench: benchSchema,
  shop: shopSchema.optional(),
  build: idSchema,
  /** The moment of the last entry it rests on: the same record gives the same certificate, whenever it is drawn. */
  asOf: instantSchema,
  /** Counts the certificates of this build, those that differ. */
  revision: z.int().positive(),
  /** SHA-256 of the one before, which this one replaces. */
  replaces: sha256Schema.optional(),
  /** The code by which the program that issued it measures, as a hash of its sources: equal, and figures must be equal. */
  measuring: sha256Schema,
  judged: judgedSchema,
  readings: stretchesSchema,
  /** The whole notebook, struck entries included, so that anyone can work all this out again. */
  notebook: z.array(entrySchema).min(1),
});
export type CertificateData = z.infer<typeof certificateSchema>;

interface Around {
  readonly bench: BenchSigning;
  readonly shop?: Shop | undefined;
  readonly readings: CertificateData['readings'];
  readonly measuring: string;
}

/** The data of the certificate of a build. A function of the record, its readings and the bench that signs, and of nothing else. */
export function certificateData(notebook: Notebook, { bench, shop, readings, measuring }: Around): CertificateData {
  const entries = entriesCertified(notebook);
  return {
    kind: 'axlewright-certificate',
    version: certificateVersion,
    edition,
    bench,
    ...(shop === undefined ? {} : { shop }),
    build: notebook.id,
    asOf: entries.at(-1)?.at ?? '',
    ...revisionOf(notebook.entries),
    measuring,
    judged: judgedOf(readNotebook(notebook.id, entries)),
    readings: { sha256: readings.sha256, stretches: [...readings.stretches] },
    notebook: [...entries],
  };
}

/** Neither that it was issued before nor where the build lies is a part of what was done on the axle. */
const isTold = ({ deed }: Entry): boolean => deed.kind !== 'certified' && deed.kind !== 'laid';

/** What a certificate rests on: everything that was done on the axle. */
export const entriesCertified = ({ entries }: Pick<Notebook, 'entries'>): readonly Entry[] => entries.filter(isTold);

/** Whether something was done on the axle since its last certificate. */
export const hasGoneOn = ({ entries }: Pick<Notebook, 'entries'>): boolean =>
  entries.findLastIndex(isTold) > entries.findLastIndex(({ deed }) => deed.kind === 'certified');

/** When the axle was last driven since its certificate; undefined where it was not, or where there is none. */
export function roadTestSince({ entries }: Pick<Notebook, 'entries'>): string | undefined {
  const last = entries.findLastIndex(({ deed }) => deed.kind === 'certified');
  const since = new Set(last < 0 ? [] : entries.slice(last + 1));
  return standingEntries(entries).findLast(
    (entry) => since.has(entry) && entry.deed.kind === 'noted' && entry.deed.topic === 'road-test',
  )?.at;
}

/** Issued again with nothing written since, it is the same certificate and no revision. */
function revisionOf(entries: readonly Entry[]): Pick<CertificateData, 'revision' | 'replaces'> {
  const lastWritten = entries.findLastIndex(isTold);
  const before = entries.slice(0, lastWritten).flatMap(({ deed }) => (deed.kind === 'certified' ? [deed.sha256] : []));
  const replaces = before.at(-1);
  return { revision: new Set(before).size + 1, ...(replaces === undefined ? {} : { replaces }) };
}

/** What is judged from a build, as codes and numbers. */
export function judgedOf(build: Build): Judged {
  const assessed = assessedOf(build);
  const missing = [...whatIsMissing(build, assessed)];
  return {
    complete: missing.length === 0,
    missing,
    assemblies: assessed.map(({ assembly, states }) => ({
      id: assembly.id,
      phase: assembly.phase,
      number: assembly.number,
      checks: states.map((state) => checkHashed(assessed, assembly.id, state)),
    })),
    calibration: build.assemblies.flatMap(({ measurements }) =>
      measurements.flatMap(({ id, how, at }) =>
        how.kind === 'seen' || how.gauge === undefined
          ? []
          : [{ entry: id, was: calibrationOn(how.gauge, at.slice(0, 10)) }],
      ),
    ),
    rule: build.specSheet?.rule ?? 'simple',
  };
}

function checkHashed(assessed: readonly Assessed[], assembly: string, state: CheckState): CheckHashed {
  const { check, needed, standing, closeCall, measurement, override } = state;
  const own = assessed.find((one) => one.assembly.id === assembly)?.assembly.measurements ?? [];
  const taken = own.filter((one) => one.check === check.id).length;
  const on = assessed.find((one) => one.assembly.measurements.some(({ id }) => id === measurement?.id))?.assembly.id;
  return {
    check: check.id,
    needed,
    standing,
    closeCall,
    limits: state.limits.map(limitHashed),
    ...(measurement === undefined ? {} : { measurement: measurement.id }),
    ...(on === undefined || on === assembly ? {} : { carriedFrom: on }),
    earlier: Math.max(0, taken - 1),
    overridden: override !== undefined,
  };
}

const limitHashed = ({ quantity: _quantity, why: _why, ...codes }: LimitJudged): CheckHashed['limits'][number] => codes;
