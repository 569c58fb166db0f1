import type { LineShape, NumberShape } from './lineShape.ts';
import type { Shown } from './shown.ts';
import { displayDecimals } from './units.ts';

export type Ailing = 'lowBattery' | 'error';

/** Writes readings as lines, one gauge's way. Keeps only the counter. */
interface LineWriter {
  /** The bytes of one reading: one line, or two where the gauge sends two axes in turn. */
  write(shown: Shown): Uint8Array;
  /** The line a gauge sends when it cannot measure. */
  ail(word: Ailing): Uint8Array;
}

const STX = '\u0002';
const ETX = '\u0003';

/** An exponent form keeps every digit and, as IEEE 488.2 asks of NR3, always a point. */
const exponential = (size: number): string =>
  size
    .toExponential()
    .replace(/^(\d)e/, '$1.0e')
    .toUpperCase();

function digitsOf(size: number, decimals: number, shape: NumberShape): string {
  if (shape.form === 'NR1') return (size * 10 ** decimals).toFixed(0);
  const text = shape.form === 'NR3' ? exponential(size) : size.toFixed(decimals);
  const local = text.replace('.', shape.decimalSign);
  return shape.leadingZero ? local : local.replace(/^0(?=[.,])/, '');
}

const signOf = (value: number, shape: NumberShape): string => (value < 0 ? '-' : shape.plus ? '+' : '');

/** A number as this gauge writes it. */
export function numberText(shown: Pick<Shown, 'value' | 'resolution'>, shape: NumberShape): string {
  const sign = signOf(shown.value, shape);
  const digits = digitsOf(Math.abs(shown.value), displayDecimals(shown.resolution), shape);
  const gapped = ' '.repeat(shape.signGap) + digits;
  if (shape.fill === '0') return sign + gapped.padStart(shape.width - sign.length, '0');
  return (sign + gapped).padStart(shape.width, ' ');
}

function withUnit(number: string, unit: Shown['unit'], { unit: written }: LineShape): string {
  const word = written.words[unit];
  if (written.place === 'none') return number;
  return written.place === 'after' ? number + written.gap + word : word + written.gap + number;
}

const CHECKS: Readonly<Record<Exclude<LineShape['check'], 'none'>, (sum: number, byte: number) => number>> = {
  sum: (sum, byte) => (sum + byte) & 0xff,
  xor: (sum, byte) => sum ^ byte,
};

function checked(text: string, check: LineShape['check']): string {
  if (check === 'none') return text;
  const sum = Buffer.from(text, 'latin1').reduce(CHECKS[check], 0);
  return text + sum.toString(16).toUpperCase().padStart(2, '0');
}

/** A writer of this shape of line. */
export function lineWriter(shape: LineShape): LineWriter {
  let count = -1;

  function line(measured: string, axis: string): string {
    count = (count + 1) % 100;
    const counter = shape.counter ? [String(count).padStart(2, '0')] : [];
    const fields = [...counter, ...shape.fieldsBefore, measured, ...shape.fieldsAfter];
    const text = checked(shape.label + axis + fields.join(shape.separator), shape.check);
    return (shape.framed ? STX + text + ETX : text) + shape.end;
  }

  const measured = (shown: Shown): string =>
    shown.overload ? shape.words.overload : withUnit(numberText(shown, shape.number), shown.unit, shape);

  return {
    write(shown) {
      const [first, second] = shape.axes;
      const text = line(measured(shown), first ?? '');
      const still = second === undefined ? '' : line(measured({ ...shown, value: 0, overload: false }), second);
      return Buffer.from(text + still, 'latin1');
    },
    ail: (word) => Buffer.from(line(shape.words[word], shape.axes[0] ?? ''), 'latin1'),
  };
}
