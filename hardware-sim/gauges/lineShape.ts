import type { Shown } from './shown.ts';

/** How the number itself is written. */
export interface NumberShape {
  /** `fixed` as on the display; NR1 whole steps of the last place, NR2 with a point, NR3 with an exponent (IEEE 488.2). */
  readonly form: 'fixed' | 'NR1' | 'NR2' | 'NR3';
  readonly decimalSign: '.' | ',';
  /** Writes `+` before what is not negative. */
  readonly plus: boolean;
  /** Writes the zero before the decimal sign. */
  readonly leadingZero: boolean;
  /** Blanks between the sign and the digits, as gauges with a sign column send. */
  readonly signGap: number;
  /** Filled on the left up to so many characters, sign included; 0 leaves it as long as it is. */
  readonly width: number;
  readonly fill: ' ' | '0';
}

/** How one gauge writes one line. Nothing here is any maker's: each is a way in which text lines differ. */
export interface LineShape {
  readonly number: NumberShape;
  /** Before or after the number, or not at all; `gap` stands between. */
  readonly unit: {
    readonly place: 'before' | 'after' | 'none';
    readonly gap: string;
    readonly words: Readonly<Record<Shown['unit'], string>>;
  };
  /** Text before everything else. */
  readonly label: string;
  /** Other fields of the line, in its order, and what stands between fields. */
  readonly fieldsBefore: readonly string[];
  readonly fieldsAfter: readonly string[];
  readonly separator: string;
  /** With two names, each reading is sent as two lines in turn, the second axis standing still. */
  readonly axes: readonly [] | readonly [string, string];
  /** STX before and ETX after what is sent. */
  readonly framed: boolean;
  /** Two hexadecimal digits over the text before them: sum of the bytes, or their exclusive or. */
  readonly check: 'none' | 'sum' | 'xor';
  /** A number that rises with each line, 0 to 99, as the first field. */
  readonly counter: boolean;
  readonly end: '\r\n' | '\r' | '\n' | '';
  /** Sent instead of the number. */
  readonly words: { readonly overload: string; readonly lowBattery: string; readonly error: string };
}

export const PLAIN_NUMBER: NumberShape = {
  form: 'fixed',
  decimalSign: '.',
  plus: true,
  leadingZero: true,
  signGap: 0,
  width: 0,
  fill: ' ',
};

/** The plainest line: `+0.1234 mm`, CR LF. */
export const PLAIN_LINE: LineShape = {
  number: PLAIN_NUMBER,
  unit: { place: 'after', gap: ' ', words: { mm: 'mm', '[in_i]': 'in', 'N.m': 'Nm', '[lbf_av].[in_i]': 'in-lb' } },
  label: '',
  fieldsBefore: [],
  fieldsAfter: [],
  separator: ',',
  axes: [],
  framed: false,
  check: 'none',
  counter: false,
  end: '\r\n',
  words: { overload: 'OVER', lowBattery: 'BATTERY', error: 'ERROR' },
};

const shape = (changes: Partial<LineShape>, number: Partial<NumberShape> = {}): LineShape => ({
  ...PLAIN_LINE,
  ...changes,
  number: { ...PLAIN_NUMBER, ...number },
});
const noUnit: LineShape['unit'] = { ...PLAIN_LINE.unit, place: 'none' };
const tightUnit: LineShape['unit'] = { ...PLAIN_LINE.unit, gap: '' };

/** A drawer of differing gauges, for whoever must read them all. */
export const SHAPES = {
  plain: PLAIN_LINE,
  bare: shape({}, { plus: false, leadingZero: false }),
  comma: shape({}, { decimalSign: ',', plus: false }),
  unitless: shape({ unit: noUnit, end: '\r' }),
  tight: shape({ unit: tightUnit, end: '\n' }, { plus: false }),
  labelled: shape({ label: 'A: ' }),
  'unit first': shape({ unit: { ...PLAIN_LINE.unit, place: 'before' } }, { plus: false }),
  'sign column': shape({}, { signGap: 2 }),
  columns: shape({ unit: noUnit }, { width: 10 }),
  'zero filled': shape({ unit: noUnit }, { width: 9, fill: '0' }),
  framed: shape({ framed: true, end: '' }),
  'sum checked': shape({ check: 'sum' }),
  'xor checked': shape({ check: 'xor', framed: true }),
  counted: shape({ counter: true }),
  fields: shape({ fieldsBefore: ['01', '23.5'], fieldsAfter: ['0', 'N'], separator: ';' }),
  whole: shape({ unit: noUnit }, { form: 'NR1', plus: false }),
  decimal: shape({ unit: noUnit, end: '\n' }, { form: 'NR2' }),
  exponent: shape({ unit: noUnit, end: '\n' }, { form: 'NR3' }),
  'two axes': shape({ axes: ['X ', 'Y '] }),
} as const satisfies Readonly<Record<string, LineShape>>;

export type ShapeName = keyof typeof SHAPES;
