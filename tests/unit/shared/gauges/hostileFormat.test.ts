import { describe, expect, it } from 'vitest';
import { isUnreadable } from '../../../../src/shared/gauges/gaugeReading.ts';
import { parseLineFormat } from '../../../../src/shared/gauges/lineFormat.ts';
import { lineReader } from '../../../../src/shared/gauges/readLine.ts';
import { latin1 } from '../../../support/writeLine.ts';

const parsed = (fields: object) => parseLineFormat({ kind: 'axlewright-line-format', version: 1, ...fields });

const reads = (fields: object, line: string): unknown => {
  const format = parsed(fields);
  if (!format.ok) throw new Error(format.problem.sentence);
  const read = lineReader(format.value)(latin1(line));
  return isUnreadable(read) ? read.why : [read.value, read.unit ?? ''];
};
const field = (separator: string, field: number): object => ({ number: { at: 'field', separator, field } });
const columns = (from: number, to: number): object => ({ number: { at: 'columns', from, to } });
const notSent = { unit: { is: 'not-sent' } };
const mm = { unit: { is: 'fixed', ucum: 'mm' } };

describe('a line format from anywhere is refused, with the field named, where it', () => {
  it.each<[string, string, object]>([
    ['ends lines at a digit', 'lineEnd', { lineEnd: '3' }],
    ['ends lines at a decimal point', 'lineEnd', { lineEnd: '.' }],
    ['ends lines at a comma that may be a decimal sign', 'lineEnd', { lineEnd: ',' }],
    ['ends lines at an exponent', 'lineEnd', { lineEnd: 'E' }],
    ['begins lines with a digit', 'start', { start: '2' }],
    ['begins lines with a sign', 'start', { start: '-' }],
    ['takes a sign for part of the label', 'label', { label: 'X-' }],
    ['takes a decimal point for part of the label', 'label', { label: '12.' }],
    ['parts fields at a decimal point', 'number.separator', field('.', 2)],
    ['parts fields at a sign', 'number.separator', field('-', 2)],
    ['parts fields at the decimal comma', 'number.separator', { ...field(',', 2), decimal: ',' }],
    ['uses a character of more than a byte', 'lineEnd', { lineEnd: '\u0133' }],
    ['makes inches of millimetres', 'unit.words.mm', { unit: { is: 'beside', words: { mm: '[in_i]' } } }],
    ['hides a unit as a state', 'words.lowBattery.0', { words: { lowBattery: ['mm'] } }],
    ['hides a number as a state', 'words.overload.0', { words: { overload: ['-7.125'] } }],
    ['has a field nobody knows', 'turnsign', { turnsign: true }],
  ])('%s', (_name, wrong, fields) => {
    expect(parsed(fields)).toMatchObject({ ok: false, problem: { kind: 'wrong-format', field: wrong } });
  });

  it('is no object at all', () => {
    for (const what of [null, [], 'x', 7, undefined])
      expect(parseLineFormat(what)).toMatchObject({ ok: false, problem: { field: 'format' } });
  });

  it('takes the comma where it can only part', () => {
    expect(parsed({ lineEnd: ',', decimal: '.' })).toMatchObject({ ok: true });
  });
});

describe('a format that fits other lines than these reads no wrong number from them', () => {
  it.each<[string, object, string, unknown]>([
    ['a label that is the beginning of a number', { label: '1' }, '12.345 mm', 'other-label'],
    ['the same label alone', { label: '1' }, '1 2.345 mm', [2.345, 'mm']],
    ['columns that leave the sign out', { ...columns(3, 9), ...notSent }, '-    7.125', 'no-number'],
    ['columns that leave the exponent out', { ...columns(1, 5), ...notSent }, '1.234E+02', 'no-number'],
    ['a sign that stands apart, fields parted by blanks', { ...field(' ', 2), ...notSent }, 'X - 7.125', [-7.125, '']],
    ['a sign in a field of its own', { ...field(';', 2), ...notSent }, '-;7.125', 'no-number'],
    ['a fixed unit and another in the line', { ...field(';', 1), ...mm }, '0.125;in', 'unknown-unit'],
    ['a unit said not to be sent', { ...field(';', 1), ...notSent }, '0.125;in', [0.125, '[in_i]']],
    ['a unit said not to be sent, beside the number', notSent, '0.125 in', [0.125, '[in_i]']],
    ['a lone N for normal', { ...field(';', 1), ...mm }, '0.125;N', [0.125, 'mm']],
    [
      'an error word in another field than the number and its unit',
      { ...field(';', 1), unit: { is: 'beside' } },
      '0.125 mm;ERR',
      'gauge-error',
    ],
  ])('%s', (_name, fields, line, wanted) => {
    expect(reads(fields, line)).toEqual(wanted);
  });
});
