import { checksumReader } from '../checksum.ts';
import { isUnreadable, type LineReading } from '../gauge-reading.ts';
import { automatic, type LineFormat } from '../line-format.ts';
import { lineReader } from '../read-line.ts';
import { unitNamed } from '../../quantities/units.ts';
import { textOf, withoutFrame } from '../text.ts';
import { numberColumns } from './columns-of-numbers.ts';
import { type HeardLines, heardLines, shareOfText } from './heard-lines.ts';
import { confidenceOf, type Doubt, type Learned, type Sample, sureFrom } from './learned.ts';

const linesToKnow = 5;
const samplesShown = 8;

/**
 * Finds out how a gauge writes its lines from what it sent while its spindle was moved.
 * Takes the simplest format that reads the lines and can be read in one way only; says what is in doubt.
 */
export function learnFormat(bytes: Uint8Array): Learned {
  if (bytes.length === 0) return unknown(['nothing-heard']);
  const heard = heardLines(bytes);
  if (heard === undefined) return unknown(['no-line-end']);
  if (shareOfText(heard.lines) < 0.7) return unknown(['not-text']);
  const frame = frameOf(heard);
  const found = oneNumberALine(frame, heard) ?? numberAmongOthers(frame, heard);
  if (found === undefined) return unknown(['no-number']);
  return judged(found, heard);
}

/** A format to try, others that are as likely, and what is in doubt about it. */
interface Found {
  readonly format: LineFormat;
  readonly alternatives: readonly LineFormat[];
  readonly doubts: readonly Doubt[];
}

const unknown = (doubts: readonly Doubt[]): Learned => ({
  format: automatic,
  confidence: 0,
  sure: false,
  doubts,
  samples: [],
  alternatives: [],
});

/** What surrounds every line: its end, its start mark, its check characters. */
function frameOf({ lineEnd, start, lines }: HeardLines): LineFormat {
  const frame: LineFormat = { ...automatic, name: '', lineEnd, ...(start !== undefined && { start }) };
  const texts = lines.map((line) => textOf(line).slice(start?.length ?? 0));
  for (const is of ['xor-hex', 'sum-hex'] as const) {
    const fits = texts.filter((text) => checksumReader({ is })(text) !== undefined).length;
    // By chance one line in 256 fits.
    if (texts.length >= 3 && fits >= texts.length * 0.9) return { ...frame, checksum: { is } };
  }
  return frame;
}

const styles = [
  { decimal: '.', sign: 'leading' },
  { decimal: ',', sign: 'leading' },
  { decimal: '.', sign: 'trailing' },
  { decimal: ',', sign: 'trailing' },
] as const;

const readAll = (format: LineFormat, lines: readonly Uint8Array[]): LineReading[] => {
  const read = lineReader(format);
  return lines.map(read).flatMap((line) => (isUnreadable(line) ? [] : [line]));
};

/** The style under which the most lines hold exactly one number and nothing that is not understood. */
function oneNumberALine(frame: LineFormat, { lines }: HeardLines): Found | undefined {
  const tried = styles
    .map((style) => ({ ...frame, ...style }))
    .map((format) => ({ format, read: readAll(format, lines) }));
  const best = tried.reduce((one, other) => (other.read.length > one.read.length ? other : one));
  if (best.read.length < lines.length * 0.7) return undefined;
  const labels = [...new Set(best.read.map((line) => line.label))].toSorted((a, b) => a.localeCompare(b));
  if (labels.length < 2) return { format: best.format, alternatives: [], doubts: [] };
  return perLabel(best.format, best.read, labels);
}

/** Two labels that alternate are two axes; which one is wanted only a person can say. */
function perLabel(format: LineFormat, read: readonly LineReading[], labels: readonly string[]): Found {
  const often = labels.filter((label) => read.filter((line) => line.label === label).length >= read.length * 0.2);
  const [first, ...others] = often
    .filter((label) => label !== '')
    .map((label) => ({ ...format, label: firstWord(label) }));
  if (first === undefined || others.length === 0) return { format, alternatives: [], doubts: [] };
  return { format: first, alternatives: others, doubts: ['two-axes'] };
}

const firstWord = (label: string): string => label.split(' ')[0] ?? label;

/** Several numbers a line: the one that moves, where only one does. */
function numberAmongOthers(frame: LineFormat, { lines }: HeardLines): Found | undefined {
  const texts = lines.flatMap(
    (line) => checksumReader(frame.checksum)(textOf(line).slice(frame.start?.length ?? 0)) ?? [],
  );
  for (const decimal of ['.', ','] as const) {
    const columns = numberColumns(texts, decimal);
    const written = columns.filter((column) => column.decimals.some((count) => count > 0));
    const candidates = written.length > 0 ? written : columns;
    const moving = candidates.filter((column) => column.role === 'moves');
    const chosen = moving.length > 0 ? moving : candidates.filter((column) => column.role === 'still');
    const formats = chosen.map(({ place }) => ({ ...frame, decimal, number: place, unit: unitOf(texts, place) }));
    const [format, ...alternatives] = formats;
    if (format === undefined) continue;
    const doubts: Doubt[] = moving.length === 0 ? ['did-not-move'] : [];
    return { format, alternatives, doubts: alternatives.length > 0 ? [...doubts, 'two-numbers-move'] : doubts };
  }
  return undefined;
}

/** The place of a field that is a known unit in every line, by the separator the number is found with. */
function unitOf(texts: readonly string[], place: LineFormat['number']): LineFormat['unit'] {
  const separator = place.at === 'field' ? place.separator : ' ';
  const split = texts.map((text) => (separator.trim() === '' ? text.trim().split(/\s+/u) : text.split(separator)));
  const fields = Math.min(...split.map((each) => each.length));
  const own = place.at === 'field' ? place.field - 1 : -1;
  if (split.every((each) => /\d\s*[^\d\s]+$/u.test(withoutFrame(each[own] ?? '')))) return { is: 'beside' };
  for (let at = 0; at < fields; at += 1) {
    if (split.every((each) => unitNamed(withoutFrame(each[at] ?? '')) !== undefined)) {
      return { is: 'placed', place: { at: 'field', separator, field: at + 1 } };
    }
  }
  return { is: 'not-sent' };
}

/** Reads the lines with what was found, tightens it by what all lines have in common, and says how far to trust it. */
function judged(found: Found, heard: HeardLines): Learned {
  const own = found.format.label === undefined ? heard.lines : heard.lines.filter(begins(found.format));
  const read = readAll(found.format, own);
  const share = own.length === 0 ? 0 : read.length / own.length;
  const format = tightened(found.format, own, read);
  const doubts = [...found.doubts, ...doubtsOf(read, own.length, share)];
  const confidence = confidenceOf(share, [...new Set(doubts)]);
  return {
    format,
    confidence,
    sure: confidence >= sureFrom,
    doubts: [...new Set(doubts)],
    samples: samplesOf(format, own),
    alternatives: found.alternatives,
  };
}

const begins =
  ({ start, label }: LineFormat) =>
  (line: Uint8Array): boolean =>
    textOf(line).startsWith((start ?? '') + (label ?? ''));

function doubtsOf(read: readonly LineReading[], lines: number, share: number): Doubt[] {
  const still = read.every((line) => line.value === read[0]?.value);
  const bare = read.every((line) => line.unit === undefined);
  const doubts: Doubt[] = [];
  if (lines < linesToKnow) doubts.push('too-few-lines');
  if (share < 0.95) doubts.push('some-unreadable');
  if (read.every((line) => line.decimals === 0)) doubts.push('no-decimals');
  // A number with decimals and a unit is a reading even when it stands still.
  if (still && bare) doubts.push('did-not-move');
  if (bare) doubts.push('no-unit');
  return doubts;
}

/** What every line has in common is asked of every line to come: lost bytes are noticed by it. */
function tightened(format: LineFormat, lines: readonly Uint8Array[], read: readonly LineReading[]): LineFormat {
  const decimals = read[0]?.decimals;
  const length = (lines[0]?.length ?? 0) - (format.start?.length ?? 0);
  const sameLength = lines.every((line) => line.length === lines[0]?.length);
  const sameDecimals = decimals !== undefined && read.every((line) => line.decimals === decimals);
  const padded = sameLength && isFilledUp(lines) && read.length >= linesToKnow && length > 0;
  return { ...format, ...(sameDecimals && { decimals }), ...(padded && { length }) };
}

/** A length is a rule only where the gauge fills its numbers up to it: with zeros, or with blanks before shorter ones. */
function isFilledUp(lines: readonly Uint8Array[]): boolean {
  const texts = lines.map(textOf);
  const widths = new Set(texts.map((text) => /[+-]?\d+[.,]?\d*(?!.*\d)/u.exec(text)?.[0].length));
  return widths.size > 1 || texts.every((text) => /(?<![\d.,])0\d/u.test(text));
}

function samplesOf(format: LineFormat, lines: readonly Uint8Array[]): Sample[] {
  const read = lineReader(format);
  return lines
    .flatMap((raw) => {
      const line = read(raw);
      return isUnreadable(line) ? [] : [{ raw, value: line.value, unit: line.unit ?? '' }];
    })
    .slice(-samplesShown);
}
