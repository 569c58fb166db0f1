import { z } from 'zod';
import {
  type CertificateContent,
  certificateContent,
  certificateVersion,
} from '../../shared/presentation/certificate/content.ts';
import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import { idSchema } from '../../shared/basics/recorded.ts';
import { entrySchema } from '../../shared/job/records/notebook.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { readAttachment } from './attachment.ts';
import { contentHash } from './hash.ts';
import { certificatePdf } from './pdf.ts';

type VerifyProblem = 'unreadable' | 'not-a-certificate' | 'newer-certificate' | 'altered';

/** What a certificate says that holds together. */
interface Verified {
  readonly sha256: string;
  readonly complete: boolean;
  readonly missing: readonly string[];
  readonly build: string;
  readonly title: string;
  readonly technician: string;
  readonly asOf: string;
  /** Whether a PDF was read, or the bare data, which has no printed hash to compare. */
  readonly from: 'pdf' | 'json';
}

/**
 * Checks a certificate (the PDF as issued, or its data) against itself: the data follow the schema, every word
 * of them follows from the notebook inside, and the hash is the one the PDF carries. It cannot know whether the
 * notebook itself was invented: that takes a signature.
 */
export function verifyCertificate(pdfOrJson: Buffer): Result<Verified, VerifyProblem> {
  const read = readContent(pdfOrJson);
  if (!read.ok) return read;
  const { content, printed, from } = read.value;
  const sha256 = contentHash(content);
  const other = printed.find((hash) => hash !== sha256);
  if (other !== undefined)
    return fail(altered(`the PDF carries the hash ${other.slice(0, 12)}…, its data have ${sha256.slice(0, 12)}…`));
  const { build, asOf, complete, missing } = content;
  const { id, title, technician } = build;
  return ok({ sha256, complete, missing, build: id, title, technician, asOf, from });
}

/**
 * Whether the pages are, byte for byte, those that this version draws from the attached data. False is no proof
 * of alteration: another version of the bench may draw the same data differently.
 */
export async function pagesAsDrawn(pdf: Buffer): Promise<Result<boolean, VerifyProblem>> {
  const attached = readAttachment(pdf);
  if (!attached.ok) return attached;
  const read = readContent(pdf);
  if (!read.ok) return read;
  const look = lookOf(attached.value.creator);
  return ok(look !== undefined && (await certificatePdf(read.value.content, look)).equals(pdf));
}

/** The writer notes the look it drew for: "…, a4, metric". */
function lookOf(creator: string): CertificateLook | undefined {
  const [, page, units] = /, (a4|letter), (metric|inch)$/u.exec(creator) ?? [];
  if (page !== 'a4' && page !== 'letter') return undefined;
  return units === 'metric' || units === 'inch' ? { page, units } : undefined;
}

interface ReadContent {
  readonly content: CertificateContent;
  readonly printed: readonly string[];
  readonly from: Verified['from'];
}

function readContent(bytes: Buffer): Result<ReadContent, VerifyProblem> {
  if (!bytes.subarray(0, 5).equals(Buffer.from('%PDF-'))) {
    const content = contentOf(bytes);
    return content.ok ? ok({ content: content.value, printed: [], from: 'json' }) : content;
  }
  const attached = readAttachment(bytes);
  if (!attached.ok) return attached;
  const content = contentOf(attached.value.data);
  return content.ok ? ok({ content: content.value, printed: attached.value.printed, from: 'pdf' }) : content;
}

/** What is needed to work everything else out again; the rest is compared with that. */
const coreSchema = z.looseObject({
  kind: z.literal('axlewright-certificate'),
  version: z.int().positive(),
  build: z.looseObject({ id: idSchema }),
  notebook: z.array(z.unknown()),
});

function contentOf(bytes: Buffer): Result<CertificateContent, VerifyProblem> {
  const parsed = parseJson(bytes);
  if (!parsed.ok) return parsed;
  const core = coreSchema.safeParse(parsed.value);
  if (!core.success) return fail(notOne(core.error));
  if (core.data.version > certificateVersion) return fail(newer(core.data.version));
  const entries = z.array(entrySchema).safeParse(core.data.notebook);
  if (!entries.success)
    return fail(altered(`its notebook is not readable at ${pathText(['notebook', ...pathOf(entries.error)])}`));
  return recomputed(core.data.build.id, entries.data, parsed.value);
}

function recomputed(
  id: string,
  entries: z.infer<typeof entrySchema>[],
  given: unknown,
): Result<CertificateContent, VerifyProblem> {
  try {
    const content = certificateContent({ id, entries });
    const difference = firstDifference(plain(content), given, []);
    return difference === undefined ? ok(content) : fail(altered(difference));
  } catch {
    return fail(altered('its notebook does not begin with the start of a build'));
  }
}

function parseJson(bytes: Buffer): Result<unknown, 'not-a-certificate'> {
  try {
    return ok(JSON.parse(bytes.toString('utf8')) as unknown);
  } catch {
    return fail({
      kind: 'not-a-certificate',
      sentence: 'This file is neither a certificate’s PDF nor its data.',
      remedy: 'Take the PDF as it was issued, or the certificate.json attached to it.',
    });
  }
}

const plain = (content: CertificateContent): unknown => JSON.parse(JSON.stringify(content)) as unknown;

/** Where the two first differ and what each says; undefined when they do not. */
function firstDifference(should: unknown, is: unknown, path: readonly PropertyKey[]): string | undefined {
  if (Object.is(should, is)) return undefined;
  if (!isHolder(should) || !isHolder(is) || Array.isArray(should) !== Array.isArray(is))
    return `${pathText(path)} says ${shown(is)}, its notebook gives ${shown(should)}`;
  for (const key of new Set([...Object.keys(should), ...Object.keys(is)])) {
    const difference = firstDifference(should[key], is[key], [...path, key]);
    if (difference !== undefined) return difference;
  }
  return undefined;
}

const isHolder = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

const shown = (value: unknown): string => {
  const text = value === undefined ? 'nothing' : JSON.stringify(value);
  return text.length > 80 ? `${text.slice(0, 79)}…` : text;
};

const pathOf = (error: z.ZodError): readonly PropertyKey[] => error.issues[0]?.path ?? [];
const pathText = (path: readonly PropertyKey[]): string =>
  path.length === 0 ? 'the whole' : path.map(String).join('.');

const altered = (what: string): Problem<'altered'> => ({
  kind: 'altered',
  sentence: `This certificate does not hold together: ${what}.`,
  remedy: 'Do not rely on it. Ask whoever issued it for the file as it was issued.',
});

const notOne = (error: z.ZodError): Problem<'not-a-certificate'> => ({
  kind: 'not-a-certificate',
  field: pathText(pathOf(error)),
  sentence: `This is not a certificate: ${pathText(pathOf(error))} is missing or of another kind.`,
  remedy: 'Take the PDF as it was issued, or the certificate.json attached to it.',
});

const newer = (version: number): Problem<'newer-certificate'> => ({
  kind: 'newer-certificate',
  field: 'version',
  sentence: `This certificate is of version ${version}; this bench reads up to ${certificateVersion}.`,
  remedy: 'Check it with the version of the bench that issued it, or a newer one.',
});
