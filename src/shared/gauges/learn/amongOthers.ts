import { checksumReader } from '../checksum.ts';
import { isUnreadable } from '../gaugeReading.ts';
import type { LineFormat } from '../lineFormat.ts';
import { lineReader } from '../readLine.ts';
import { textOf } from '../text.ts';
import { type NumberColumn, numberColumns } from './columnsOfNumbers.ts';
import type { Doubt } from './learned.ts';
import { namedNumbers } from './namedNumbers.ts';
import { unitBesideNumber } from './unitBeside.ts';

/** A format to try, others that are as likely, and what is in doubt about it. */
export interface Found {
  readonly format: LineFormat;
  readonly alternatives: readonly LineFormat[];
  readonly doubts: readonly Doubt[];
}

interface Candidate extends Found {
  readonly hasDecimals: boolean;
}

/** Several numbers a line: the one that moves, where only one does. */
export function numberAmongOthers(frame: LineFormat, lines: readonly Uint8Array[]): Found | undefined {
  const texts = lines.flatMap(
    (line) => checksumReader(frame.checksum)(textOf(line).slice(frame.start?.length ?? 0)) ?? [],
  );
  const label = commonLabel(texts);
  const candidates = (['.', ','] as const).flatMap((decimal) => {
    const named = byName(texts, { ...frame, decimal });
    if (named !== undefined) return [named];
    const inTurn = turns(texts, lines, { ...frame, decimal });
    if (inTurn !== undefined) return [inTurn];
    return [
      ...theMoving(texts, { ...frame, decimal }),
      ...(label === undefined ? [] : theMoving(texts.map(withoutLabel(label)), { ...frame, decimal, label })),
    ];
  });
  return candidates.toSorted((one, other) => merit(one) - merit(other))[0];
}

/** Numbers told by name: the one that moves, by its name, wherever it stands in the line. */
function byName(texts: readonly string[], frame: LineFormat): Candidate | undefined {
  const numbers = namedNumbers(texts, frame.decimal);
  if (numbers === undefined) return undefined;
  const { chosen, doubts } = worthReading(numbers);
  const [format, ...alternatives] = chosen.map(({ name, unit }): LineFormat => ({
    ...frame,
    number: { at: 'named', name },
    unit,
  }));
  return format === undefined
    ? undefined
    : { format, alternatives, doubts, hasDecimals: chosen[0]?.hasDecimals ?? false };
}

/** Fewer doubts count most; then a number with decimals is likelier the reading than one without. */
const merit = ({ doubts, hasDecimals }: Candidate): number => 2 * doubts.length + (hasDecimals ? 0 : 1);

/** A label leaves blanks, so that columns stay where they are. */
const withoutLabel =
  (label: string) =>
  (text: string): string =>
    ' '.repeat(label.length) + text.slice(label.length);

/** What all lines begin with, up to the first that could belong to a number. */
function commonLabel(texts: readonly string[]): string | undefined {
  const label = /^[^\d+\-.,\s]{1,24}/u.exec(texts[0] ?? '')?.[0];
  return label !== undefined && texts.every((text) => text.startsWith(label)) ? label : undefined;
}

/** The columns worth reading, the likely first: those that moved, else those that did not do so clearly. */
function worthReading<Column extends Pick<NumberColumn, 'role' | 'hasDecimals'>>(
  columns: readonly Column[],
): { chosen: readonly Column[]; doubts: readonly Doubt[] } {
  const likelyFirst = columns.toSorted((one, other) => Number(other.hasDecimals) - Number(one.hasDecimals));
  const those = (role: NumberColumn['role']) => likelyFirst.filter((column) => column.role === role);
  const [moving, oneWay, still] = [those('moves'), those('one-way'), those('still')];
  if (moving.length > 0) return { chosen: moving, doubts: moving.length > 1 ? ['two-numbers-move'] : [] };
  // The spindle may have been pushed one way while something else stood, or it stood beside a clock.
  if (oneWay.length > 0) return { chosen: [...oneWay, ...still], doubts: ['one-way'] };
  return { chosen: still, doubts: ['did-not-move'] };
}

function theMoving(texts: readonly string[], frame: LineFormat): Candidate[] {
  const { chosen, doubts } = worthReading(numberColumns(texts, frame.decimal));
  const [format, ...alternatives] = chosen.map((column) => ({
    ...frame,
    number: column.place,
    unit: unitBesideNumber(texts, column),
  }));
  return format === undefined ? [] : [{ format, alternatives, doubts, hasDecimals: chosen[0]?.hasDecimals ?? false }];
}

const mostAxes = 4;
/** A state that changes now and then is no axis; axes take turns. */
const oftenSwitched = 0.3;

/** A whole number at the very beginning, alone or before letters: "1: 0.123", "02A+0.456", "1,0.123". */
const firstNumber = /^\d{1,3}(?=[^\d.,]|,[^\d]|,\d+\.)/u;

/** Two axes told apart by a number at the beginning of the line. */
function turns(texts: readonly string[], lines: readonly Uint8Array[], frame: LineFormat): Candidate | undefined {
  const starts = texts.map((text) => firstNumber.exec(text)?.[0] ?? '');
  const names = [...new Set(starts)].toSorted((a, b) => a.localeCompare(b));
  const switched = starts.filter((name, i) => i > 0 && name !== starts[i - 1]).length;
  if (names.length < 2 || names.length > mostAxes || switched < oftenSwitched * starts.length) return undefined;
  const found = names.flatMap((label) => {
    const own = texts.filter((_, i) => starts[i] === label).map(withoutLabel(label));
    const [axis] = label === '' ? [] : theMoving(own, { ...frame, label });
    const reads =
      axis !== undefined &&
      readsMost(
        axis.format,
        lines.filter((_, i) => starts[i] === label),
      );
    return reads ? [axis] : [];
  });
  const [first, ...others] = found;
  if (first === undefined) return undefined;
  return { ...first, alternatives: others.map(({ format }) => format), doubts: ['two-axes'] };
}

function readsMost(format: LineFormat, lines: readonly Uint8Array[]): boolean {
  const read = lineReader(format);
  return lines.filter((line) => !isUnreadable(read(line))).length >= 0.9 * lines.length;
}
