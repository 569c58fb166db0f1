import { checkings, checksumReader } from '../checksum.ts';
import { isUnreadable, type LineReading } from '../gaugeReading.ts';
import { automatic, type LineFormat } from '../lineFormat.ts';
import { lineReader } from '../readLine.ts';
import { textOf } from '../text.ts';
import { type Found, numberAmongOthers } from './amongOthers.ts';
import { type HeardLines, heardLines, shareOfText } from './heardLines.ts';
import { doubtsOf, linesToKnow } from './doubts.ts';
import { confidenceOf, type Doubt, type Learned, type Sample, sureFrom } from './learned.ts';

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
  const found = oneNumberALine(frame, heard) ?? numberAmongOthers(frame, heard.lines);
  if (found === undefined) return unknown(['no-number']);
  return judged(found, heard);
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
  for (const is of checkings) {
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

/** Two labels that alternate are two axes, or readings and their peaks; which one is wanted only a person can say. */
function perLabel(format: LineFormat, read: readonly LineReading[], labels: readonly string[]): Found {
  const often = labels.filter((label) => read.filter((line) => line.label === label).length >= read.length * 0.2);
  const named = often.filter((label) => label !== '').map((label) => ({ ...format, label: firstWord(label) }));
  const [first, ...others] = named.length < often.length ? [] : named;
  // Lines without a label cannot be told from others by one.
  if (first === undefined) return { format, alternatives: named, doubts: ['two-axes'] };
  return { format: first, alternatives: others, doubts: others.length > 0 ? ['two-axes'] : [] };
}

const firstWord = (label: string): string => label.split(' ')[0] ?? label;

/** Reads the lines with what was found, tightens it by what all lines have in common, and says how far to trust it. */
function judged(found: Found, heard: HeardLines): Learned {
  const own = heard.lines.filter(begins(found.format));
  const read = readAll(found.format, own);
  const share = own.length === 0 ? 0 : read.length / own.length;
  const doubts = [...new Set([...found.doubts, ...doubtsOf(found.format, read, own.length)])];
  const confidence = confidenceOf(share, doubts);
  const tight = (format: LineFormat): LineFormat => tightened(format, heard.lines.filter(begins(format)));
  const format = tight(found.format);
  return {
    format,
    confidence,
    sure: confidence >= sureFrom,
    doubts,
    samples: samplesOf(format, own),
    alternatives: found.alternatives.map(tight),
  };
}

const begins =
  ({ start, label }: LineFormat) =>
  (line: Uint8Array): boolean =>
    textOf(line).startsWith((start ?? '') + (label ?? ''));

/** What every line has in common is asked of every line to come: lost bytes are noticed by it. */
function tightened(format: LineFormat, lines: readonly Uint8Array[]): LineFormat {
  const read = readAll(format, lines);
  const decimals = read[0]?.decimals;
  const length = (lines[0]?.length ?? 0) - (format.start?.length ?? 0);
  const sameLength = lines.every((line) => line.length === lines[0]?.length);
  const sameDecimals = decimals !== undefined && read.every((line) => line.decimals === decimals);
  const padded = sameLength && isFilledUp(read) && read.length >= linesToKnow && length > 0;
  return { ...format, ...(sameDecimals && { decimals }), ...(padded && { length }) };
}

/** A length is a rule only where the gauge fills its numbers up to it: with zeros, or with blanks before shorter ones. */
function isFilledUp(read: readonly LineReading[]): boolean {
  const widths = new Set(read.map((line) => line.digits + line.sign.length));
  const hasFillingZero = read.some((line) => line.digits > 1 && Math.abs(line.value) < 10 ** (line.digits - 1));
  return widths.size > 1 || hasFillingZero;
}

function samplesOf(format: LineFormat, lines: readonly Uint8Array[]): Sample[] {
  return lines
    .flatMap((raw) => readAll(format, [raw]).map(({ value, unit }) => ({ raw, value, unit: unit ?? '' })))
    .slice(-samplesShown);
}
