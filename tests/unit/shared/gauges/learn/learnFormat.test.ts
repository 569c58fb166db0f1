import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isUnreadable } from '../../../../../src/shared/gauges/gaugeReading.ts';
import type { Learned } from '../../../../../src/shared/gauges/learn/learned.ts';
import { learnFormat } from '../../../../../src/shared/gauges/learn/learnFormat.ts';
import { parseLineFormat } from '../../../../../src/shared/gauges/lineFormat.ts';
import { readLine } from '../../../../../src/shared/gauges/readLine.ts';
import { latin1 } from '../../../../support/writeLine.ts';

/** A spindle moved there and back, in counts of a thousandth, through zero. */
const moved = Array.from({ length: 40 }, (_, i) => Math.round(12_345 * Math.sin(i / 6)));
const thousandths = (counts: number): string => (counts / 1000).toFixed(3);
const learn = (line: (counts: number, i: number) => string): Learned => learnFormat(latin1(moved.map(line).join('')));

/** What the learned format makes of one more line. */
const reads = ({ format }: Learned, line: string): unknown => {
  const read = readLine(format, latin1(line));
  return isUnreadable(read) ? read.why : [read.value, read.unit ?? ''];
};

describe('what a gauge sends teaches its format', () => {
  it('number and unit', () => {
    const learned = learn((counts) => `${thousandths(counts)} mm\r\n`);
    expect(learned).toMatchObject({ sure: true, doubts: [], format: { decimals: 3 } });
    expect(learned.confidence).toBeGreaterThan(0.9);
    expect(reads(learned, '-1.234 mm')).toEqual([-1.234, 'mm']);
    expect(reads(learned, '-1.23 mm')).toBe('wrong-decimals');
    expect(learned.samples.at(-1)).toMatchObject({ value: (moved.at(-1) ?? 0) / 1000, unit: 'mm' });
  });

  it('a decimal comma, a label, a sign apart', () => {
    const learned = learn((counts) => {
      const size = thousandths(Math.abs(counts)).replace('.', ',');
      return `X=${counts < 0 ? '-' : '+'}  ${size}mm\r`;
    });
    expect(learned).toMatchObject({ sure: true, format: { decimal: ',' } });
    expect(reads(learned, 'X=-  1,234mm')).toEqual([-1.234, 'mm']);
  });

  it('a sign behind the number', () => {
    const learned = learn((counts) => `${thousandths(Math.abs(counts))}${counts < 0 ? '-' : '+'} in\n`);
    expect(learned).toMatchObject({ sure: true, format: { sign: 'trailing' } });
    expect(reads(learned, '1.234- in')).toEqual([-1.234, '[in_i]']);
  });

  it('marks around the line, check characters at its end, numbers filled up to a length', () => {
    const learned = learn((counts) => {
      const body = `${thousandths(counts).padStart(8)} mm`;
      const check = Array.from(body).reduce((before, character) => before ^ character.charCodeAt(0), 0);
      return `\u0002${body}${check.toString(16).toUpperCase().padStart(2, '0')}\u0003`;
    });
    expect(learned).toMatchObject({
      sure: true,
      format: { start: '\u0002', lineEnd: '\u0003', checksum: { is: 'xor-hex' }, length: 13 },
    });
    expect(reads(learned, '\u0002   1.234 mm00')).toBe('checksum');
  });

  it('several fields, of which one counts and one moves', () => {
    const learned = learn((counts, i) => `${i + 100};${thousandths(counts)};mm;7\r\n`);
    expect(learned).toMatchObject({ sure: true, format: { number: { at: 'field', separator: ';', field: 2 } } });
    expect(reads(learned, '140;-0.5000;mm;7')).toBe('wrong-decimals');
    expect(reads(learned, '140;-0.500;mm;7')).toEqual([-0.5, 'mm']);
  });

  it('fixed columns', () => {
    const learned = learn((counts, i) => `${String(i % 100).padStart(2, '0')}${thousandths(counts).padStart(9)} 1\r`);
    expect(learned).toMatchObject({ sure: true, doubts: ['no-unit'], format: { unit: { is: 'not-sent' } } });
    expect(reads(learned, '17   -0.500 1')).toEqual([-0.5, '']);
  });

  it('error words and a few spoilt lines among the good', () => {
    const learned = learn((counts, i) => (i === 7 ? 'OL\r\n' : `${thousandths(counts)} Nm\r\n`));
    expect(learned).toMatchObject({ sure: true });
    expect(reads(learned, 'OL')).toBe('overload');
  });
});

describe('learning is not sure', () => {
  it.each([
    ['of nothing', '', 'nothing-heard'],
    ['of numbers without end', '0.123 '.repeat(100), 'no-line-end'],
    ['of two lines', '0.123 mm\r0.456 mm\r0.789 mm\r', 'too-few-lines'],
    ['of words', 'hello there\r\n'.repeat(20), 'no-number'],
    ['of bytes of another baud rate', '\u00f8\u0080\u0000\u00fe\u0006\r'.repeat(50), 'not-text'],
    ['of a number that stands still, without a unit', '0.500\r\n'.repeat(50), 'did-not-move'],
  ])('%s', (_name, text, doubt) => {
    const learned = learnFormat(latin1(text));
    expect(learned.sure).toBe(false);
    expect(learned.doubts).toContain(doubt);
  });

  it('when two numbers move: both are offered', () => {
    const learned = learn((counts, i) => `${thousandths(counts)},${thousandths(moved[(i * 7) % 40] ?? 0)}\r\n`);
    expect(learned).toMatchObject({ sure: false, doubts: expect.arrayContaining(['two-numbers-move']) });
    expect(learned.alternatives).toHaveLength(1);
  });

  it('when two axes alternate: both are offered', () => {
    const learned = learn((counts, i) => `${i % 2 === 0 ? 'A' : 'B'} ${thousandths(counts)} mm\r\n`);
    expect(learned).toMatchObject({ sure: false, doubts: ['two-axes'], format: { label: 'A' } });
    expect(learned.alternatives).toMatchObject([{ label: 'B' }]);
    expect(reads(learned, 'A 0.500 mm')).toEqual([0.5, 'mm']);
    expect(reads(learned, 'B 0.500 mm')).toBe('other-label');
  });

  it('when the number has no decimals', () => {
    const learned = learn((counts) => `${String(counts)}\r\n`);
    expect(learned).toMatchObject({ sure: false, doubts: expect.arrayContaining(['no-decimals']) });
  });

  it('of noise, whatever noise', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 100, maxLength: 3000 }), (bytes) => {
        expect(learnFormat(bytes).sure).toBe(false);
      }),
      { numRuns: 300 },
    );
  });
});

it('a learned format is one that the bench takes from a file', () => {
  const learned = learn((counts) => `${thousandths(counts)} mm\r\n`);
  const again = parseLineFormat(JSON.parse(JSON.stringify(learned.format)));
  expect(again).toEqual({ ok: true, value: learned.format });
});
