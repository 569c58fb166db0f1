import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isUnreadable } from '../../../../src/shared/gauges/gaugeReading.ts';
import { automatic, parseLineFormat } from '../../../../src/shared/gauges/lineFormat.ts';
import { readLine } from '../../../../src/shared/gauges/readLine.ts';
import { freeLines, latin1, placedLines } from '../../../support/writeLine.ts';

const auto = (text: string): unknown => {
  const line = readLine(automatic, latin1(text));
  return isUnreadable(line) ? line.why : [line.value, line.unit ?? 'none'];
};

const format = (fields: object): ReturnType<typeof readerOf> => readerOf(fields);
const readerOf = (fields: object) => {
  const checked = parseLineFormat({ kind: 'axlewright-line-format', version: 1, ...fields });
  if (!checked.ok) throw new Error(checked.problem.sentence);
  return (text: string): unknown => {
    const line = readLine(checked.value, latin1(text));
    return isUnreadable(line) ? line.why : [line.value, line.unit ?? 'none'];
  };
};

describe('the automatic format', () => {
  // NR1, NR2, NR3 examples: IEEE 488.2 number formats as quoted in instrument manuals (§8.7.2–8.7.4, 7.7.2.1).
  it.each([
    ['146', 146],
    ['+146', 146],
    ['-12345', -12345],
    ['12.3', 12.3],
    ['+1.2345', 1.2345],
    ['-0.123', -0.123],
    ['1.23E+6', 1.23e6],
    ['123.4E-54', 123.4e-54],
    ['9.0E2', 900],
    ['.5', 0.5],
    ['+200', 200],
    ['+9.9E36', 9.9e36],
    ['1.5e2', 150],
  ])('reads %s as IEEE 488.2 means it', (text, value) => {
    expect(auto(text)).toEqual([value, 'none']);
  });

  it.each([
    ['0.237 mm', 0.237, 'mm'],
    ['0,237 mm', 0.237, 'mm'],
    ['- 0.237mm', -0.237, 'mm'],
    ['X=+  1.25 mm', 1.25, 'mm'],
    ['mm 0.237', 0.237, 'mm'],
    ['ST,GS,+0.0093,in', 0.0093, '[in_i]'],
    ['.0093"', 0.0093, '[in_i]'],
    [',5 mm', 0.5, 'mm'],
    ['X - 0.5 mm', -0.5, 'mm'],
    ['lbf in 22.1', 22.1, '[lbf_av].[in_i]'],
    ['T: 2,5 N m', 2.5, 'N.m'],
    ['22.1 lbf in', 22.1, '[lbf_av].[in_i]'],
    ['\u000212.5 \u00c2\u00b5m\u0003', 12.5, 'um'],
    ['CH1 0.5 mm', 0.5, 'mm'],
    ['0.5 mm BATT', 0.5, 'mm'],
    ['22.1 IN LB', 22.1, '[lbf_av].[in_i]'],
    ['22.1 in lb', 22.1, '[lbf_av].[in_i]'],
    ['22.1 FT-LB', 22.1, '[lbf_av].[ft_i]'],
    ['LB IN 22.1', 22.1, '[lbf_av].[in_i]'],
    ['22.1 N M', 22.1, 'N.m'],
    ['22.1 N', 22.1, 'N'],
    ['lbf 12.3', 12.3, '[lbf_av]'],
  ])('reads "%s"', (text, value, unit) => {
    expect(auto(text)).toEqual([value, unit]);
  });

  it.each([
    ['0.1230.456', 'no-number'],
    ['0.1230.456 0.789', 'several-numbers'],
    ['0.123 mm0.456 mm', 'several-numbers'],
    ['0.123mm0.456mm', 'unknown-unit'],
    ['-0.123-0.456', 'no-number'],
    ['0.123, 0.456', 'several-numbers'],
    ['GS,,5 mm', 'no-number'],
    // Five behind a comma, or a half without its nought.
    ['GS,5 mm', 'no-number'],
    ['in,38', 'no-number'],
    ['lbf mm 12.3', 'unknown-unit'],
    ['1,234.5', 'no-number'],
    ['12:30:01 0.5', 'several-numbers'],
    ['12.', 'no-number'],
    ['1.2E', 'unknown-unit'],
    ['1.2E+', 'unknown-unit'],
    ['1e999', 'no-number'],
    ['9.91E37', 'no-number'],
    ['-9.9E37', 'no-number'],
    ['0.237 m', 'unknown-unit'],
    ['0.237 mm LB', 'unknown-unit'],
    ['22.1 LB', 'unknown-unit'],
    ['22.1 mm/s', 'unknown-unit'],
    ['1/2 in', 'unknown-unit'],
    ['1 000.5', 'several-numbers'],
    ['- -0.5', 'several-numbers'],
    ['1-0.5', 'no-number'],
    ['0.237 mmm', 'unknown-unit'],
    ['in 0.237 mm', 'unknown-unit'],
    ['mm', 'no-number'],
    ['CH1', 'no-number'],
    ['-----', 'no-number'],
    ['OL', 'overload'],
    ['-OL mm', 'overload'],
    ['0.999 OVER', 'overload'],
    ['ERR 12', 'gauge-error'],
    ['E05', 'gauge-error'],
    ['HOLD 0.237 mm', 'held'],
    ['0.237 mm HOLD', 'held'],
    ['MAX=0.237 mm', 'held'],
    ['min 0.237 mm', 'held'],
    ['PEAK 3.45 N.m', 'held'],
    ['TIR 0.237 mm', 'held'],
    ['0.237mm MAX', 'held'],
    ['0.2\u00813 mm', 'noise'],
    ['\u00fe\u00ff', 'noise'],
  ])('refuses "%s": %s', (text, why) => {
    expect(auto(text)).toBe(why);
  });
});

describe('a taught format', () => {
  it('reads columns, and never part of a number', () => {
    const read = format({ number: { at: 'columns', from: 3, to: 9 }, unit: { is: 'fixed', ucum: 'mm' } });
    expect(read('01 +1.234 7')).toEqual([1.234, 'mm']);
    expect(read('01  +1.2345')).toBe('no-number');
    expect(read('01 +1.2')).toBe('no-number');
  });

  it('reads fields, with the unit in a field of its own', () => {
    const read = format({
      number: { at: 'field', separator: ',', field: 2 },
      unit: { is: 'placed', place: { at: 'field', separator: ',', field: 3 }, words: { '0': 'mm', '1': '[in_i]' } },
    });
    expect(read('17, -0.25,0')).toEqual([-0.25, 'mm']);
    expect(read('18,0.01,1')).toEqual([0.01, '[in_i]']);
    expect(read('18,0.01,7')).toBe('unknown-unit');
    expect(read('18')).toBe('no-number');
  });

  it('takes a number named as an extreme only where the format names it so', () => {
    expect(format({ number: { at: 'named', name: 'X' } })('X=0.25 mm MAX=0.4 mm')).toEqual([0.25, 'mm']);
    expect(format({ label: 'MAX' })('MAX 0.4 mm')).toEqual([0.4, 'mm']);
    expect(format({ number: { at: 'field', separator: ';', field: 2 } })('HOLD;0.4;mm')).toBe('held');
  });

  it('leaves the lines of the other axis alone', () => {
    const read = format({ label: 'B' });
    expect(read('B 0.5 mm')).toEqual([0.5, 'mm']);
    expect(read('A 0.7 mm')).toBe('other-label');
  });

  it('asks for the length, the decimals and the start mark it was taught', () => {
    const read = format({ start: '\u0002', length: 9, decimals: 3 });
    expect(read('\u000212.345 mm')).toEqual([12.345, 'mm']);
    expect(read('12.345 mm')).toBe('no-start');
    expect(read('\u00022.345 mm')).toBe('wrong-length');
    expect(read('\u0002012.34 mm')).toBe('wrong-decimals');
    expect(read('\u000212.3\u000299.345 mm')).toEqual([99.345, 'mm']);
  });

  it('is refused with the wrong field named', () => {
    const problem = (fields: object): unknown => {
      const checked = parseLineFormat({ kind: 'axlewright-line-format', version: 1, ...fields });
      return checked.ok ? 'taken' : checked.problem.field;
    };
    expect(problem({ number: { at: 'columns', from: 9, to: 3 } })).toBe('number.to');
    expect(problem({ unit: { is: 'fixed', ucum: 'furlong' } })).toBe('unit.ucum');
    expect(problem({ lenght: 3 })).toBe('lenght');
    expect(problem({ version: 2 })).toBe('version');
    expect(problem({})).toBe('taken');
  });
});

describe('any number written by any format', () => {
  it.each([
    ['free', freeLines],
    ['placed', placedLines],
  ])('is read back exactly: %s', (_name, lines) => {
    fc.assert(
      fc.property(lines, ({ format, line, value, unit, ownUnit }) => {
        const read = readLine(format, latin1(line));
        expect(isUnreadable(read) ? `${line}: ${read.why}` : read.value).toBe(value);
        if (!isUnreadable(read)) expect(read.unit ?? ownUnit).toBe(unit);
      }),
      { numRuns: 3000 },
    );
  });
});
