import { unitNamed } from '../basics/units.ts';
import { isUnreadable, type LineFlag, type LineReading, type Unreadable, type WhyUnreadable } from './gaugeReading.ts';
import { likenessOfLines } from './likeness.ts';
import type { LineFormat } from './lineFormat.ts';
import { lineReader } from './readLine.ts';
import { lineSplitter, type RawLine } from './splitLines.ts';
import { textOf } from './text.ts';

/** One line of a gauge: a number with its unit, or why it is none. */
export type StreamLine =
  | {
      readonly raw: Uint8Array;
      readonly t: number;
      readonly value: number;
      readonly unit: string;
      readonly flags: readonly LineFlag[];
    }
  | { readonly raw: Uint8Array; readonly t: number; readonly why: WhyUnreadable };

export interface LineStream {
  /** Bytes as they came in at `t` (monotonic seconds): the lines they complete. */
  readonly push: (bytes: Uint8Array, t: number) => StreamLine[];
  /** The link is gone at `t`: what is left. */
  readonly end: (t: number) => StreamLine[];
}

interface LineStreamOptions {
  /** UCUM code that holds where the line says none. */
  readonly ownUnit?: string | undefined;
  /**
   * When the link was opened, if the gauge may have been in mid-line then. Bytes that come at once after opening
   * may be the end of a line whose beginning nobody saw.
   */
  readonly openedAt?: number | undefined;
}

/** Bytes later than this after opening were sent after it: a line takes no longer than this to come through. */
const mayBeHalf_s = 0.05;

/** From bytes to readings, for one gauge from opening its link to losing it. Keeps at most one line in memory. */
export function lineStream(format: LineFormat, options: LineStreamOptions = {}): LineStream {
  const splitter = lineSplitter(format.lineEnd);
  const read = lineReader(format);
  const likeness = likenessOfLines();
  const first = firstLine(format, options.openedAt);

  const judge = (line: LineReading | Unreadable, raw: Uint8Array, t: number): StreamLine => {
    if (isUnreadable(line)) {
      likeness.missed(line.why);
      return { raw, t, why: line.why };
    }
    if (!likeness.fits(line, raw.length, t)) return { raw, t, why: 'unlike-the-others' };
    const unit = line.unit ?? options.ownUnit;
    if (unit === undefined) return { raw, t, why: 'no-unit' };
    if (!alike(unit, options.ownUnit)) return { raw, t, why: 'other-quantity' };
    return { raw, t, value: line.value, unit, flags: line.flags };
  };

  const lineOf = ({ bytes, ending }: RawLine, t: number): StreamLine[] =>
    ending === 'whole'
      ? first.next(bytes, t).map((line) => {
          if (line.half) return { raw: line.raw, t: line.t, why: 'joined-midway' };
          return judge(read(line.raw), line.raw, line.t);
        })
      : [{ raw: bytes, t, why: ending }];

  return {
    push: (bytes, t) => {
      first.heard(t);
      return splitter.push(bytes).flatMap((line) => lineOf(line, t));
    },
    end: (t) => [
      ...first.end().map(({ raw, t }): StreamLine => ({ raw, t, why: 'joined-midway' })),
      ...splitter.end().flatMap((line) => lineOf(line, t)),
    ],
  };
}

/** "22.1 in lb" cut to "22.1 in" would make a length of a torque; where the gauge's own unit is known that is noticed. */
const alike = (unit: string, own: string | undefined): boolean =>
  own === undefined || unitNamed(unit)?.dimension === unitNamed(own)?.dimension;

interface Held {
  readonly raw: Uint8Array;
  readonly t: number;
  readonly half: boolean;
}

interface FirstLine {
  readonly heard: (t: number) => void;
  /** The lines that may be read now: none while the first is held, then both. */
  readonly next: (raw: Uint8Array, t: number) => Held[];
  readonly end: () => Held[];
}

/**
 * "345 mm" may be all of a line or the end of "12.345 mm". Where that cannot be told, the first line is held
 * until the second has come: built alike, character for character, it was whole.
 */
function firstLine(format: LineFormat, openedAt: number | undefined): FirstLine {
  const tellsItself = format.start !== undefined || format.length !== undefined || format.checksum.is !== 'none';
  let doubtful = openedAt !== undefined && !tellsItself;
  let begun = false;
  let held: Held | undefined;
  return {
    heard: (t) => {
      if (!begun && openedAt !== undefined && t - openedAt > mayBeHalf_s) doubtful = false;
      begun = true;
    },
    next: (raw, t) => {
      const line = { raw, t, half: false };
      if (!doubtful) return [line];
      if (held === undefined) {
        held = line;
        return [];
      }
      doubtful = false;
      return [{ ...held, half: buildOf(held.raw) !== buildOf(raw) }, line];
    },
    end: () => (doubtful && held !== undefined ? [{ ...held, half: true }] : []),
  };
}

/** "+12.345 mm" as "+99.999 mm": which characters stand where, whatever the digits. */
const buildOf = (raw: Uint8Array): string => textOf(raw).replaceAll(/\d/gu, '9').replaceAll('-', '+');
