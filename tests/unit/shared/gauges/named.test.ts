import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { learnFormat } from '../../../../src/shared/gauges/learn/learnFormat.ts';
import { automatic, type LineFormat, parseLineFormat } from '../../../../src/shared/gauges/lineFormat.ts';
import { namedValues, valueNamed } from '../../../../src/shared/gauges/named.ts';
import { readLine } from '../../../../src/shared/gauges/readLine.ts';
import { latin1 } from '../../../support/writeLine.ts';

const byName = (name: string, more: Partial<LineFormat> = {}): LineFormat => ({
  ...automatic,
  number: { at: 'named', name },
  unit: { is: 'not-sent' },
  ...more,
});
const read = (format: LineFormat, line: string) => readLine(format, latin1(line));

describe('values told by name', () => {
  it.each([
    ['X=1.234 Y=0.002', 'X', 1.234],
    ['X=1.234 Y=0.002', 'Y', 0.002],
    ['Y=0.002 X=1.234', 'X', 1.234],
    ['X = - 1.234 ; Y = 0.002', 'X', -1.234],
    ['X:+1.234,Y:-0.002', 'Y', -0.002],
    ['{"x":1.234,"y":-0.002}', 'y', -0.002],
    ['T=21.5 ch1=0.5 ch2=0.7', 'ch2', 0.7],
  ])('%s: %s is %d', (line, name, value) => {
    expect(read(byName(name), line)).toMatchObject({ value });
  });

  it('carry their own unit, or the one the line has', () => {
    expect(read(byName('X', { unit: { is: 'beside' } }), 'X=0.0093in Y=1mm')).toMatchObject({
      value: 0.0093,
      unit: '[in_i]',
    });
    expect(read(byName('X'), 'X=1.234 Y=0.002 mm')).toMatchObject({ value: 1.234, unit: 'mm' });
  });

  it.each([
    ['X=1.234 X=1.235', 'twice'],
    ['Y=0.002', 'not at all'],
    ['XX=1.234 Y=0.002', 'as a part of another name'],
    ['X=1.234Y=0.002', 'run into the next'],
    ['X= Y=0.002', 'without a number'],
    ['X=1. Y=0.002', 'cut off'],
    ['X=1.234.5 Y=0.002', 'ruined'],
  ])('%s is no reading: the name stands there %s', (line) => {
    expect(read(byName('X'), line)).toHaveProperty('why');
  });

  it('asks for a name that is one', () => {
    const format = (name: string) => parseLineFormat({ ...automatic, number: { at: 'named', name } });
    expect(format('X')).toMatchObject({ ok: true });
    for (const name of ['', '1', 'X=', '+X', '0.5']) expect(format(name)).toMatchObject({ ok: false });
  });

  it('are read back whatever their names, values and order', () => {
    const name = fc.stringMatching(/^[A-Za-z_]\w{0,6}$/u);
    const values = fc.uniqueArray(fc.tuple(name, fc.integer({ min: -99_999, max: 99_999 })), {
      selector: ([one]) => one,
      minLength: 1,
      maxLength: 5,
    });
    fc.assert(
      fc.property(values, fc.constantFrom('=', ':', ' = '), fc.constantFrom(' ', ',', '; '), (all, is, between) => {
        const line = all.map(([one, value]) => `${one}${is}${(value / 1000).toFixed(3)}`).join(between);
        expect(namedValues(line).map((value) => value.name)).toEqual(all.map(([one]) => one));
        for (const [one, value] of all) expect(Number(valueNamed(line, one))).toBe(value / 1000);
      }),
    );
  });
});

describe('learning a gauge that names its values', () => {
  const rocked = (i: number) => (1.2 + 0.3 * Math.sin(i / 6)).toFixed(3);
  const learnt = (line: (moved: string, i: number) => string) => {
    const lines = Array.from({ length: 60 }, (_, i) => line(rocked(i), i));
    return learnFormat(latin1(`half\r\n${lines.join('\r\n')}\r\n`));
  };

  it.each([
    ['blanks', (moved: string) => `X=${moved} Y=0.002`],
    ['commas', (moved: string) => `X=${moved},Y=0.002`],
    ['semicolons and a plus', (moved: string) => `X=+${moved};Y=+0.002;T=21.5`],
    ['JSON', (moved: string) => `{"X":${moved},"Y":0.002}`],
    ['a number that flickers', (moved: string, i: number) => `X=${moved} Y=0.00${2 + (i % 2)}`],
    ['an order that changes', (moved: string, i: number) => (i % 3 > 0 ? `X=${moved} Y=0.002` : `Y=0.002 X=${moved}`)],
    ['a word that comes and goes', (moved: string, i: number) => `X=${moved} Y=0.002${i % 5 > 0 ? '' : ' HOLD=1'}`],
  ])('takes the one that moved, by its name: %s', (_, line) => {
    const { format, sure, doubts, samples } = learnt(line);
    expect(format.number).toEqual({ at: 'named', name: 'X' });
    expect(doubts).toEqual(['no-unit']);
    expect(sure).toBe(true);
    expect(samples.at(-1)?.value).toBe(Number(rocked(59)));
  });

  it('takes the second where that is the one that moved, and its unit', () => {
    const { format, doubts } = learnt((moved) => `X=0.002mm Y=${moved}mm`);
    expect(format).toMatchObject({ number: { at: 'named', name: 'Y' }, unit: { is: 'beside' }, decimals: 3 });
    expect(doubts).toEqual([]);
  });

  it('is not sure which where both moved, and offers the other', () => {
    const { sure, doubts, alternatives } = learnt((moved, i) => `X=${moved} Y=${(0.4 * Math.cos(i / 4)).toFixed(3)}`);
    expect(sure).toBe(false);
    expect(doubts).toContain('two-numbers-move');
    expect(alternatives.map(({ number }) => number)).toEqual([{ at: 'named', name: 'Y' }]);
  });

  it('leaves a line with one name to its label', () => {
    expect(learnt((moved) => `X=${moved} mm`).format.number).toEqual({ at: 'free' });
  });
});
