import { inflateSync } from 'node:zlib';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';

/** What stands in a certificate's PDF besides its pages. */
export interface Attached {
  /** The files in it by their names. */
  readonly files: ReadonlyMap<string, AttachedFile>;
  /** The hash printed in the document's own information, twice: as Info and as XMP. */
  readonly printed: readonly string[];
  /** How it was drawn, as its writer noted it. */
  readonly creator: string;
}

interface AttachedFile {
  readonly bytes: Buffer;
  /** Where its stream begins in the PDF. */
  readonly at: number;
}

/** A few kilobytes may unpack to gigabytes: so much is unpacked of one file in all. */
const mostUnpacked_bytes = 512 * 1024 * 1024;

/**
 * Reads the files back out of a PDF that our own writer made: through its cross-reference table to the catalogue, the
 * associated files and their streams. It reads no other PDF on purpose: one that another program has written
 * anew is no longer the certificate that was issued, and is refused with that reason.
 * @param most_bytes what may be unpacked of it in all.
 */
export function readAttachments(pdf: Buffer, most_bytes = mostUnpacked_bytes): Result<Attached, 'unreadable'> {
  try {
    return ok(attached(pdf, most_bytes));
  } catch (error) {
    return fail(notOurs(error instanceof Error ? error.message : String(error)));
  }
}

const notOurs = (why: string): Problem<'unreadable'> => ({
  kind: 'unreadable',
  sentence: `This PDF does not have the structure in which certificates are written (${why}).`,
  remedy:
    'Take the file as it was issued. If a program has saved it anew, save its attachment certificate.json and check that instead.',
});

function attached(pdf: Buffer, most_bytes: number): Attached {
  const file = openFile(pdf, most_bytes);
  const root = file.object(reference(file.trailer, 'Root'));
  const listed = found(/\/AF \[((?:\d+ 0 R ?)+)\]/u, root, 'no associated file');
  const files = [...listed.matchAll(/(\d+) 0 R/gu)].map(([, id]) => filed(file, Number(id)));
  const info = file.object(reference(file.trailer, 'Info'));
  const metadata = file.stream(reference(root, 'Metadata')).bytes.toString('utf8');
  const keywords = file.object(reference(info, 'Keywords'));
  return {
    files: new Map(files),
    printed: [
      found(/sha256:([0-9a-f]{64})/u, keywords, 'no hash in its information'),
      found(/<pdf:Keywords>sha256:([0-9a-f]{64})</u, metadata, 'no hash in its metadata'),
    ],
    creator: found(/<xmp:CreatorTool>([^<]*)</u, metadata, 'no writer in its metadata'),
  };
}

function filed(file: OpenFile, id: number): readonly [string, AttachedFile] {
  const spec = file.object(id);
  const name = found(/\/UF \(([^)]*)\)/u, spec, 'a file without a name');
  const embedded = Number(found(/\/EF <<\s*\/F (\d+) 0 R/u, spec, 'a file without its bytes'));
  return [name, file.stream(embedded)];
}

interface OpenFile {
  readonly trailer: string;
  /** The dictionary of an object, as text. */
  readonly object: (id: number) => string;
  readonly stream: (id: number) => AttachedFile;
}

function openFile(pdf: Buffer, most_bytes: number): OpenFile {
  // One character a byte, so that offsets in the text are offsets in the file.
  const text = pdf.toString('latin1');
  const start = Number(found(/startxref\n(\d+)\n%%EOF\s*$/u, text.slice(-64), 'no end of file'));
  if (!text.startsWith('xref\n0 ', start)) throw new Error('no cross-reference table where the file says it is');
  const table = text.slice(start);
  const at = (id: number): number => {
    // Entry `id` of a table whose first line is "0 count"; every entry takes twenty bytes.
    const first = table.indexOf('\n', 'xref\n'.length) + 1;
    const offset = Number(table.slice(first + id * 20, first + id * 20 + 10));
    if (!text.startsWith(`${id} 0 obj\n`, offset)) throw new Error(`object ${id} is not where the table says`);
    return offset;
  };
  const object = (id: number): string => {
    const from = at(id);
    const end = text.indexOf('endobj', from);
    const stream = text.indexOf('\nstream\n', from);
    return text.slice(from, stream >= 0 && stream < end ? stream : end);
  };
  let left_bytes = most_bytes;
  const unpacked = (bytes: Buffer): Buffer => {
    const whole = inflateSync(bytes, { maxOutputLength: left_bytes });
    left_bytes -= whole.length;
    return whole;
  };
  const stream = (id: number): AttachedFile => {
    const dictionary = object(id);
    const from = at(id) + dictionary.length + '\nstream\n'.length;
    const bytes = pdf.subarray(from, from + Number(found(/\/Length (\d+)/u, dictionary, 'a stream without length')));
    return { bytes: dictionary.includes('/Filter /FlateDecode') ? unpacked(bytes) : bytes, at: from };
  };
  return { trailer: table.slice(table.indexOf('trailer')), object, stream };
}

const reference = (text: string, name: string): number =>
  Number(found(new RegExp(String.raw`/${name} (\d+) 0 R`, 'u'), text, `no ${name.toLowerCase()}`));

function found(pattern: RegExp, text: string, why: string): string {
  const value = pattern.exec(text)?.[1];
  if (value === undefined) throw new Error(why);
  return value;
}
