import { type Problem, type Result, fail, ok } from '../../shared/basics/result.ts';
import { contradiction } from '../../shared/job/certifying/agrees.ts';
import { type CertificateData, edition, judgedOf } from '../../shared/job/certifying/certificateData.ts';
import { readNotebook } from '../../shared/job/records/build.ts';
import { certificateContent } from '../../shared/presentation/certificate/content.ts';
import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import type { KnownBench } from '../store/identity.ts';
import { fingerprintOf, isSignedBy } from '../store/signing.ts';
import { readEdition1 } from './editions/edition1.ts';
import { canonicalJson, contentHash } from './hash.ts';
import { measuringHash } from './measuring.ts';
import { altered, dataOf, openFile, type OpenedFile, type Unusable } from './openFile.ts';
import { drawnPdf } from './pdf.ts';
import { photosIn } from './photosIn.ts';
import { recompute } from './recompute.ts';

/** Whose signature it bears. `known`: a bench of this data folder, its own or one whose builds were taken in. */
type SignedBy =
  | { readonly bench: string; readonly id: string; readonly fingerprint: string; readonly known: boolean }
  | { readonly none: 'unsigned' };

/** What a certificate says that holds. */
interface Holds {
  readonly holds: true;
  readonly from: 'pdf' | 'json';
  readonly sha256: string;
  readonly edition: string;
  readonly signedBy: SignedBy;
  /** Whether every streamed result comes out of its readings as recorded, by the code of today. */
  readonly recomputed: boolean | { readonly none: string };
  /** Where today's code gives another number: which, and whether within its U95. */
  readonly firstDifference?: string;
  readonly withinU95?: boolean;
  /** Whether today's program would judge and word it the same; a later one may not, and that alters nothing. */
  readonly sameJudgementToday: boolean;
  readonly sameWordsToday: boolean;
  readonly build: string;
  readonly title: string;
  readonly technician: string;
  readonly asOf: string;
  readonly complete: boolean;
  readonly missing: readonly string[];
  readonly revision?: number;
  readonly replaces?: string;
}

/**
 * Checks a certificate (the PDF as issued, or its data) against itself: its bytes against their signatures and hashes, its
 * notebook against its schema, what is judged against the numbers, and every streamed figure against the readings inside.
 * It cannot know whether the readings were invented: that is for whoever knows the bench that signed.
 */
export async function verifyCertificate(
  bytes: Buffer,
  known: readonly KnownBench[] = [],
): Promise<Result<Holds, Unusable>> {
  const opened = openFile(bytes);
  if (!opened.ok) return opened;
  return opened.value.version === 1 ? verify1(opened.value) : verify2(opened.value, known);
}

function verify1({ data, pdf, from }: OpenedFile): Result<Holds, Unusable> {
  const read = readEdition1(data);
  if ('wrong' in read) return fail(altered(read.wrong));
  const sha256 = contentHash(data);
  const other = pdf?.printed.find((hash) => hash !== sha256);
  if (other !== undefined) return fail(otherHash(other, sha256));
  return ok({
    holds: true,
    from,
    sha256,
    edition: '1',
    signedBy: { none: 'unsigned' },
    recomputed: { none: 'no-readings' },
    sameJudgementToday: false,
    sameWordsToday: false,
    ...read.told,
  });
}

async function verify2(file: OpenedFile, known: readonly KnownBench[]): Promise<Result<Holds, Unusable>> {
  const read = dataOf(file.data);
  if (!read.ok) return read;
  const data = read.value;
  const broken = bytesAgainst(file, data) ?? contradiction(data);
  if (broken !== undefined) return fail(altered(broken));
  const figures = figuresOf(file, data);
  if (!figures.ok) return figures;
  const sameJudgementToday =
    canonicalJson(judgedOf(readNotebook(data.build, data.notebook))) === canonicalJson(data.judged);
  // Nobody vouches for what is not signed: then it must say what its notebook gives, and nothing else.
  if (file.signature === undefined && !sameJudgementToday)
    return fail(altered('what it judges is not what its notebook gives, and nobody has signed it'));
  const { build, title, technician, startedAt: _startedAt, missing } = toldOf(data);
  return ok({
    holds: true,
    from: file.from,
    sha256: contentHash(data),
    edition: data.edition,
    signedBy: signedBy(file, data, known),
    ...figures.value,
    sameJudgementToday,
    sameWordsToday: await isDrawnAlike(file, data),
    build,
    title,
    technician,
    asOf: data.asOf,
    complete: data.judged.complete,
    missing,
    revision: data.revision,
    ...(data.replaces === undefined ? {} : { replaces: data.replaces }),
  });
}

function toldOf(data: CertificateData) {
  const { build, missing } = certificateContent({ id: data.build, entries: data.notebook });
  return { ...build, build: build.id, missing };
}

/** Which of the hashes and signatures is not that of the bytes it stands for, in words. */
function bytesAgainst({ pdf, signature, csv }: OpenedFile, data: CertificateData): string | undefined {
  const sha256 = contentHash(data);
  const other = pdf?.printed.find((hash) => hash !== sha256);
  if (other !== undefined) return otherHash(other, sha256).sentence;
  if (pdf !== undefined && csv === undefined) return 'its readings are not in it';
  if (signature === undefined) return undefined;
  const { key } = data.bench;
  if (signature.key !== key) return 'it is signed with another key than that of its bench';
  if (!isSignedBy(Buffer.from(canonicalJson(data)), key, signature.data))
    return 'its data are not those that were signed';
  if (pdf?.unsigned === undefined)
    return signature.file === undefined ? undefined : 'it bears the signature of another file';
  return isSignedBy(pdf.unsigned, key, signature.file ?? '') ? undefined : 'its file is not the one that was signed';
}

const otherHash = (printed: string, sha256: string) =>
  altered(`the PDF carries the hash ${printed.slice(0, 12)}…, its data have ${sha256.slice(0, 12)}…`);

type Figures = Pick<Holds, 'recomputed' | 'firstDifference' | 'withinU95'>;

/**
 * The same program must find the same figures. Another one may have learned since: where the bench has signed, its figures
 * stand, and the difference is told; where nobody has, nobody vouches for them.
 */
function figuresOf({ csv, signature }: OpenedFile, data: CertificateData): Result<Figures, Unusable> {
  if (csv === undefined) return ok({ recomputed: { none: 'no-readings' } });
  const found = recompute(data, csv);
  if ('wrong' in found) return fail(altered(found.wrong));
  if ('none' in found) return ok({ recomputed: found });
  if (found.same) return ok({ recomputed: true });
  if (data.measuring === measuringHash()) return fail(altered(found.difference));
  if (signature === undefined) return fail(unvouched(found.difference));
  const firstDifference = `worked out by other code than that of its day: ${found.difference}`;
  return ok({ recomputed: false, firstDifference, withinU95: found.withinU95 });
}

const unvouched = (difference: string): Problem<'unvouched'> => ({
  kind: 'unvouched',
  sentence: `Worked out by other code than that of its day: ${difference}. Nobody has signed it, so that nobody vouches for the figure that stands there.`,
  remedy: 'Take the PDF as it was issued, or its data with their signature.',
});

function signedBy({ signature }: OpenedFile, { bench }: CertificateData, known: readonly KnownBench[]): SignedBy {
  if (signature === undefined) return { none: 'unsigned' };
  const fingerprint = fingerprintOf(bench.key);
  const isKnown = known.some(({ id, key }) => id === bench.id && key === bench.key);
  return { bench: bench.name, id: bench.id, fingerprint, known: isKnown };
}

/** Whether today's program draws the same pages from the same data; of bare data, whether it is of the same edition. */
async function isDrawnAlike({ pdf, csv, signature }: OpenedFile, data: CertificateData): Promise<boolean> {
  if (pdf?.unsigned === undefined || csv === undefined || signature === undefined) return data.edition === edition;
  const look = lookOf(pdf.creator);
  if (look === undefined) return false;
  const { file: _file, ...ofData } = signature;
  try {
    return (await drawnPdf({ data, csv, photoOf: photosIn(pdf.unsigned) }, look, ofData)).equals(pdf.unsigned);
  } catch {
    // Data that this program cannot draw, a logo that is none for one: whoever drew them was another.
    return false;
  }
}

/** The writer notes the look it drew for: "…, a4, metric" or "…, a4, metric, everything". */
function lookOf(creator: string): CertificateLook | undefined {
  const [, page, units, all] = /, (a4|letter), (metric|inch)(, everything)?$/u.exec(creator) ?? [];
  if (page !== 'a4' && page !== 'letter') return undefined;
  if (units !== 'metric' && units !== 'inch') return undefined;
  return { page, units, ...(all === undefined ? {} : { everything: true }) };
}
