import { z } from 'zod';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { certificateSchema, certificateVersion } from '../../shared/job/certifying/certificateData.ts';
import { boundedJson } from '../boundedJson.ts';
import { type Attached, readAttachments } from './attachment.ts';
import { fileNames, signatureHole, unsigned } from './filing.ts';
import { canonicalJson } from './hash.ts';
import { type Signature, signatureSchema } from './signature.ts';

export type Unusable = 'unreadable' | 'not-a-certificate' | 'newer-certificate' | 'altered' | 'unvouched';

/** A certificate's file taken apart, before anything in it is believed. */
export interface OpenedFile {
  readonly from: 'pdf' | 'json';
  /** The data as they were parsed, without what lies beside them. */
  readonly data: unknown;
  readonly version: number;
  readonly csv: string | undefined;
  readonly signature: Signature | undefined;
  /** Of a PDF: the hashes it bears, how it was drawn, and its bytes as they were signed. */
  readonly pdf?: {
    readonly printed: readonly string[];
    readonly creator: string;
    readonly unsigned: Buffer | undefined;
  };
}

const headSchema = z.looseObject({ kind: z.literal('axlewright-certificate'), version: z.int().positive() });

/** Takes a certificate apart: the PDF as issued, its data as exported, or the bare certificate.json. */
export function openFile(bytes: Buffer): Result<OpenedFile, Unusable> {
  return bytes.subarray(0, 5).equals(Buffer.from('%PDF-')) ? openPdf(bytes) : openJson(bytes);
}

function openPdf(pdf: Buffer): Result<OpenedFile, Unusable> {
  const attached = readAttachments(pdf);
  if (!attached.ok) return attached;
  const { files, printed, creator } = attached.value;
  const data = files.get(fileNames.data);
  if (data === undefined) return fail(altered('it has no data in it'));
  const opened = openData(data.bytes);
  if (!opened.ok) return opened;
  const { version, value } = opened.value;
  const csv = files.get(fileNames.readings)?.bytes.toString('utf8');
  if (version === 1)
    return ok({
      from: 'pdf',
      data: value,
      version,
      csv,
      signature: undefined,
      pdf: { printed, creator, unsigned: undefined },
    });
  const signed = signatureIn(attached.value, pdf);
  if (!signed.ok) return signed;
  return ok({
    from: 'pdf',
    data: value,
    version,
    csv,
    signature: signed.value.signature,
    pdf: { printed, creator, unsigned: signed.value.unsigned },
  });
}

function signatureIn(
  { files }: Attached,
  pdf: Buffer,
): Result<{ readonly signature: Signature; readonly unsigned: Buffer }, 'altered'> {
  const file = files.get(fileNames.signature);
  if (file === undefined || files.size !== Object.keys(fileNames).length)
    return fail(altered('the files in it are not those of a certificate'));
  const signature = parsed(file.bytes, signatureSchema);
  if (signature === undefined || canonicalJson(signature) !== file.bytes.toString('utf8'))
    return fail(altered('its signature cannot be read'));
  const { from, to } = signatureHole(pdf, file.at);
  if (signature.file === undefined || pdf.subarray(from, to).toString('latin1') !== signature.file)
    return fail(altered('its signature is not where it should be'));
  return ok({ signature, unsigned: unsigned(pdf, file.at) });
}

function openJson(bytes: Buffer): Result<OpenedFile, Unusable> {
  const opened = openData(bytes);
  if (!opened.ok) return opened;
  const { version, value } = opened.value;
  if (version === 1) return ok({ from: 'json', data: value, version, csv: undefined, signature: undefined });
  const { readingsCsv, signature: given, ...data } = value;
  const signature = given === undefined ? undefined : signatureSchema.safeParse(given);
  if (signature?.success === false) return fail(altered('its signature cannot be read'));
  if (readingsCsv !== undefined && typeof readingsCsv !== 'string') return fail(altered('its readings cannot be read'));
  return ok({ from: 'json', data, version, csv: readingsCsv, signature: signature?.data });
}

type Members = Readonly<Record<string, unknown>> & z.infer<typeof headSchema>;

function openData(bytes: Buffer): Result<{ readonly value: Members; readonly version: number }, Unusable> {
  const value = boundedJson(bytes);
  if (value === undefined) return fail(neither);
  const head = headSchema.safeParse(value);
  if (!head.success) return fail(notOne(head.error));
  if (head.data.version > certificateVersion) return fail(newer(head.data.version));
  const text = bytes.toString('utf8');
  // Written by another program with spaces it may be as it likes; as the bench writes it, it is one text and no other.
  const isBare = !/\s/u.test(text.replaceAll(/"(?:[^"\\]|\\.)*"/gu, ''));
  if (isBare && canonicalJson(value) !== text) return fail(altered('its data are not written as a bench writes them'));
  return ok({ value: head.data, version: head.data.version });
}

const parsed = <T>(bytes: Buffer, schema: z.ZodType<T>): T | undefined => schema.safeParse(boundedJson(bytes)).data;

/**
 * The data of a certificate's PDF as one JSON file, with its readings and its signature: what an export as JSON gives.
 * @throws where the PDF is none that this program has just written.
 */
export function jsonFromPdf(pdf: Buffer): string {
  const opened = openFile(pdf);
  if (!opened.ok) throw new Error(opened.problem.sentence);
  const { data, csv, signature } = opened.value;
  if (signature === undefined) throw new Error('a certificate without a signature');
  const { file: _file, ...ofData } = signature;
  return canonicalJson({ ...Object(data), readingsCsv: csv, signature: ofData });
}

/** The data of the present version, with nothing in them that does not belong. */
export function dataOf(given: unknown): Result<z.infer<typeof certificateSchema>, 'altered'> {
  const read = certificateSchema.safeParse(given);
  if (!read.success) return fail(altered(`its data are not as they were written: ${issueText(read.error)}`));
  return canonicalJson(read.data) === canonicalJson(given)
    ? ok(read.data)
    : fail(altered('its data have members that do not belong to them'));
}

function issueText(error: z.ZodError): string {
  const [issue] = error.issues;
  return issue === undefined ? '' : `${pathText(issue.path)}: ${issue.message}`;
}

const pathText = (path: readonly PropertyKey[]): string =>
  path.length === 0 ? 'the whole' : path.map(String).join('.');

export const altered = (what: string): Problem<'altered'> => ({
  kind: 'altered',
  sentence: `This certificate does not hold together: ${what}.`,
  remedy: 'Do not rely on it. Ask whoever issued it for the file as it was issued.',
});

const neither: Problem<'not-a-certificate'> = {
  kind: 'not-a-certificate',
  sentence: 'This file is neither a certificate’s PDF nor its data.',
  remedy: 'Take the PDF as it was issued, or the certificate.json attached to it.',
};

const notOne = (error: z.ZodError): Problem<'not-a-certificate'> => {
  const field = pathText(error.issues[0]?.path ?? []);
  return {
    kind: 'not-a-certificate',
    field,
    sentence: `This is not a certificate: ${field} is missing or of another kind.`,
    remedy: 'Take the PDF as it was issued, or the certificate.json attached to it.',
  };
};

const newer = (version: number): Problem<'newer-certificate'> => ({
  kind: 'newer-certificate',
  field: 'version',
  sentence: `This certificate is of version ${version}; this bench reads up to ${certificateVersion}.`,
  remedy: 'Check it with the version of the bench that issued it, or a newer one.',
});
