import fc from 'fast-check';
import type { LineFormat } from '../../src/shared/gauges/lineFormat.ts';

/** A format with one way of writing its lines, made without the reader's code: the other half of a round trip. */
export interface Written {
  readonly format: LineFormat;
  readonly ownUnit: string;
  readonly unit: string;
  readonly value: number;
  /** Without the line end. */
  readonly line: string;
  readonly lineEnd: string;
}

const usual: LineFormat = {
  kind: 'axlewright-line-format',
  version: 1,
  name: '',
  lineEnd: 'any',
  number: { at: 'free' },
  decimal: 'either',
  sign: 'leading',
  turnSign: false,
  unit: { is: 'beside' },
  checksum: { is: 'none' },
};

/** A number as a gauge has it: so many counts of its last decimal. */
const counted = fc.record({
  counts: fc.integer({ min: -99_999, max: 99_999 }),
  decimals: fc.integer({ min: 0, max: 5 }),
});

const digitsOf = (counts: number, decimals: number): string => {
  const padded = String(Math.abs(counts)).padStart(decimals + 1, '0');
  return decimals === 0 ? padded : `${padded.slice(0, -decimals)}.${padded.slice(-decimals)}`;
};

const unitWords: readonly (readonly [string, string])[] = [
  ['mm', 'mm'],
  ['in', '[in_i]'],
  ['"', '[in_i]'],
  ['Nm', 'N.m'],
  ['N m', 'N.m'],
  ['in-lb', '[lbf_av].[in_i]'],
  ['lbf in', '[lbf_av].[in_i]'],
  ['IN LB', '[lbf_av].[in_i]'],
  ['ft lb', '[lbf_av].[ft_i]'],
  ['\u00b5m', 'um'],
  ['', '[in_i]'],
];

const labels = fc.constantFrom('', 'X=', 'X ', 'CH1: ', 'ST,GS,', 'A', '\u0002', 'Pos ');
const lineEnds = fc.constantFrom('\r', '\n', '\r\n');
const nothingIsMinus = (value: number): number => (value === 0 ? 0 : value);

/** Free lines: label, sign, number, unit in the order and spacing gauges have them. */
export const freeLines: fc.Arbitrary<Written> = fc
  .record({
    number: counted,
    unit: fc.constantFrom(...unitWords),
    label: labels,
    lineEnd: lineEnds,
    comma: fc.boolean(),
    plus: fc.constantFrom('', '+', ' '),
    spaceAfterSign: fc.boolean(),
    gap: fc.constantFrom(' ', '', '\t', '   '),
    unitFirst: fc.boolean(),
    exponent: fc.option(fc.integer({ min: -9, max: 9 }), { nil: undefined }),
  })
  .map((from) => {
    // "A5" is a name, and "GS,5" five or a half: nothing a gauge in its right mind sends, and refused.
    const needsDecimals = from.label === 'A' || from.label === 'ST,GS,';
    const decimals = needsDecimals && from.number.decimals === 0 ? 1 : from.number.decimals;
    const plain = digitsOf(from.number.counts, decimals);
    const power = from.exponent === undefined ? '' : `E${from.exponent < 0 ? '' : '+'}${from.exponent}`;
    const value = nothingIsMinus(Math.sign(from.number.counts) * Number(plain + power.replace('E', 'e')));
    const sign = from.number.counts < 0 ? '-' : from.plus;
    // "A 5": a letter, a blank sign and a number; "A-5" glued. A comma straight after a digit of the label would be one number.
    const spaced = sign !== '' && from.spaceAfterSign ? `${sign}  ` : sign;
    const number = `${spaced}${from.comma ? plain.replace('.', ',') : plain}${power}`;
    const [word, unit] = from.unit;
    const gap = from.gap;
    const before = from.unitFirst && word !== '' && word !== '"';
    const line = before ? `${from.label} ${word} ${number}` : `${from.label}${number}${word === '' ? '' : gap + word}`;
    return { format: usual, ownUnit: unit, unit, value, line, lineEnd: from.lineEnd };
  });

/** Lines whose parts have places: fixed columns, fields, implied decimals, signs behind, checksums, marks. */
export const placedLines: fc.Arbitrary<Written> = fc
  .record({
    number: counted,
    decimal: fc.constantFrom<('.' | ',')[]>('.', ','),
    trailing: fc.boolean(),
    turnSign: fc.boolean(),
    implied: fc.boolean(),
    fields: fc.boolean(),
    checksum: fc.constantFrom<('none' | 'xor-hex' | 'sum-hex')[]>('none', 'xor-hex', 'sum-hex'),
    framed: fc.boolean(),
    counter: fc.integer({ min: 0, max: 99 }),
  })
  .map((from) => {
    const { counts, decimals } = from.number;
    const size = from.implied
      ? String(Math.abs(counts)).padStart(6, '0')
      : digitsOf(counts, decimals).replace('.', from.decimal);
    const sign = counts < 0 ? '-' : '+';
    const number = from.trailing ? `${size}${sign}` : `${sign}${size}`;
    const column = number.padStart(10, ' ');
    const counter = String(from.counter).padStart(2, '0');
    const body = from.fields ? `${counter};${number};M` : `${counter} ${column} M`;
    const code = from.checksum === 'none' ? '' : checkOf(body, from.checksum);
    const size0 = Number(digitsOf(Math.abs(counts), decimals)) * Math.sign(counts);
    const format: LineFormat = {
      ...usual,
      decimal: from.decimal,
      sign: from.trailing ? 'trailing' : 'leading',
      turnSign: from.turnSign,
      number: from.fields ? { at: 'field', separator: ';', field: 2 } : { at: 'columns', from: 4, to: 13 },
      unit: {
        is: 'placed',
        place: from.fields ? { at: 'field', separator: ';', field: 3 } : { at: 'columns', from: 15, to: 15 },
        words: { M: 'mm', I: '[in_i]' },
      },
      checksum: { is: from.checksum },
      lineEnd: from.framed ? '\u0003' : '\r\n',
      length: body.length + code.length,
      ...(from.implied ? { impliedDecimals: decimals } : { decimals }),
      ...(from.framed && { start: '\u0002' }),
    };
    return {
      format,
      ownUnit: 'mm',
      unit: 'mm',
      value: nothingIsMinus(from.turnSign ? -size0 : size0),
      line: `${from.framed ? '\u0002' : ''}${body}${code}`,
      lineEnd: from.framed ? '\u0003\r\n' : '\r\n',
    };
  });

function checkOf(body: string, kind: 'xor-hex' | 'sum-hex'): string {
  let check = 0;
  for (let i = 0; i < body.length; i += 1) {
    const code = body.charCodeAt(i);
    check = kind === 'xor-hex' ? check ^ code : (check + code) % 256;
  }
  return check.toString(16).toUpperCase().padStart(2, '0');
}

export const latin1 = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'latin1'));
