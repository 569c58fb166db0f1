import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { automatic, type LineFormat } from '../../../../src/shared/gauges/lineFormat.ts';
import { lineStream, type StreamLine } from '../../../../src/shared/gauges/lineStream.ts';
import { lineSplitter, longestLine } from '../../../../src/shared/gauges/splitLines.ts';
import { freeLines, latin1, placedLines } from '../../../support/writeLine.ts';

const shown = (lines: readonly StreamLine[]): unknown[] => lines.map((line) => ('why' in line ? line.why : line.value));
const feed = (text: string, format: LineFormat = automatic, ownUnit = 'mm'): unknown[] => {
  const stream = lineStream(format, { ownUnit });
  return shown([...stream.push(latin1(text), 1), ...stream.end(2)]);
};

describe('lines out of a stream', () => {
  it('end with CR, LF or both, and empty ones are none', () => {
    expect(feed('0.1\r0.2\n0.3\r\n\r\n\n0.4\r')).toEqual([0.1, 0.2, 0.3, 0.4]);
  });

  it('come out the same however the bytes were cut', () => {
    fc.assert(
      fc.property(
        fc.oneof(freeLines, placedLines),
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1 }),
        (written, cuts) => {
          const bytes = latin1(`${written.line}${written.lineEnd}`.repeat(3));
          const stream = lineStream(written.format, { ownUnit: written.ownUnit });
          const lines: StreamLine[] = [];
          for (let at = 0, i = 0; at < bytes.length; i += 1) {
            const size = cuts[i % cuts.length] ?? 1;
            lines.push(...stream.push(bytes.subarray(at, at + size), i));
            at += size;
          }
          expect(shown(lines)).toEqual([written.value, written.value, written.value]);
        },
      ),
    );
  });

  it('without an end are said once and not kept, and the next line is read', () => {
    const splitter = lineSplitter('any');
    const endless = splitter.push(latin1('7'.repeat(1_000_000)));
    expect(endless.map((line) => [line.ending, line.bytes.length])).toEqual([['endless', longestLine]]);
    expect(splitter.push(latin1('777\r0.5\r')).map((line) => latin1('0.5').join() === line.bytes.join())).toEqual([
      true,
    ]);
  });

  it('broken off are kept as such', () => {
    expect(feed('0.123 mm\r0.12')).toEqual([0.123, 'cut-off']);
  });

  it('without a unit are no reading where the gauge has none of its own', () => {
    expect(shown(lineStream(automatic).push(latin1('0.5\r0.6 mm\r'), 1))).toEqual(['no-unit', 'unlike-the-others']);
  });
});

it('a unit of another quantity than the gauge measures is no reading of it', () => {
  expect(feed('22.1 in lb\r22.2 in\r', automatic, 'N.m')).toEqual([22.1, 'unlike-the-others']);
  expect(feed('22.2 in\r', automatic, 'N.m')).toEqual(['other-quantity']);
  expect(feed('0.2 in\r', automatic, 'mm')).toEqual([0.2]);
});

describe('a line unlike the others', () => {
  it('is held back: a byte was lost', () => {
    expect(feed('1.234\r1.23\r1.235\r')).toEqual([1.234, 'unlike-the-others', 1.235]);
  });

  it('is held back: its first digit or its sign was lost', () => {
    expect(feed('12.345 mm\r2.346 mm\r12.347 mm\r')).toEqual([12.345, 'unlike-the-others', 12.347]);
    expect(feed('-0.237 mm\r0.238 mm\r-0.238 mm\r')).toEqual([-0.237, 'unlike-the-others', -0.238]);
    expect(feed('+0.237 mm\r0.238 mm\r-0.238 mm\r')).toEqual([0.237, 'unlike-the-others', -0.238]);
    expect(feed('-  1.234\r  10.234\r   9.876\r  9.877\r')).toEqual([-1.234, 10.234, 9.876, 'unlike-the-others']);
  });

  it('is none where a free width shrinks by moving, through ten or through zero', () => {
    expect(feed('10.05 mm\r9.98 mm\r10.01 mm\r')).toEqual([10.05, 9.98, 10.01]);
    expect(feed('-0.004 mm\r0.004 mm\r-0.003 mm\r')).toEqual([-0.004, 0.004, -0.003]);
    expect(feed('-0.200 mm\r-0.050 mm\r0.100 mm\r')).toEqual([-0.2, -0.05, 0.1]);
  });

  it('is believed when the spindle really is there, or time has gone by', () => {
    expect(feed('12.345 mm\r2.346 mm\r2.346 mm\r2.347 mm\r2.350 mm\r').slice(3)).toEqual([2.347, 2.35]);
    const stream = lineStream(automatic);
    expect(shown([...stream.push(latin1('12.345 mm\r'), 1), ...stream.push(latin1('2.346 mm\r'), 2)])).toEqual([
      12.345, 2.346,
    ]);
  });

  it('is believed when the gauge means it: its unit was switched', () => {
    expect(feed('1.000 mm\r0.0394 in\r0.0394 in\r0.0395 in\r0.0394 in\r1.000 mm\r')).toEqual([
      1,
      'unlike-the-others',
      'unlike-the-others',
      0.0395,
      0.0394,
      1,
    ]);
  });
});

describe('the first line after opening', () => {
  const open = (text: string, at: number): unknown[] =>
    shown(lineStream(automatic, { ownUnit: 'mm', openedAt: 10 }).push(latin1(text), at));

  it('is no reading when it may be the end of one', () => {
    expect(open('2.345 mm\r12.346 mm\r', 10.001)).toEqual(['joined-midway', 12.346]);
  });

  it('is one when the next is built alike', () => {
    expect(open('12.345 mm\r', 10.001)).toEqual([]);
    expect(open('12.345 mm\r12.346 mm\r', 10.001)).toEqual([12.345, 12.346]);
  });

  it('is one when the link had been quiet before', () => {
    expect(open('2.345 mm\r', 10.2)).toEqual([2.345]);
  });

  it('held at the end of the link is said to be half', () => {
    const stream = lineStream(automatic, { openedAt: 0 });
    expect(shown([...stream.push(latin1('2.3 mm\r'), 0.01), ...stream.end(1)])).toEqual(['joined-midway']);
  });
});

describe('bad bytes', () => {
  it('never become a number that the line does not hold', () => {
    const spoil = fc.record({
      at: fc.nat(10_000),
      how: fc.constantFrom<Spoil['how'][]>('drop', 'insert', 'replace', 'cut', 'double'),
      byte: fc.integer({ min: 0, max: 255 }),
      length: fc.integer({ min: 1, max: 40 }),
    });
    fc.assert(
      fc.property(
        fc.array(freeLines, { minLength: 1, maxLength: 8 }),
        fc.array(spoil, { maxLength: 8 }),
        (all, spoils) => {
          const text = all.map((each) => each.line + each.lineEnd).join('');
          const bytes = spoils.reduce(spoiled, latin1(text));
          for (const line of lineStream(automatic).push(bytes, 1)) {
            if (!('why' in line))
              expect(numbersIn(line.raw), JSON.stringify(Buffer.from(line.raw).toString('latin1'))).toContain(
                line.value,
              );
          }
        },
      ),
      { numRuns: 3000 },
    );
  });

  it('lost on the way are all noticed where the format knows how long a line is', () => {
    const format: LineFormat = { ...automatic, length: 9, decimals: 3 };
    const value = fc.integer({ min: 0, max: 99_999 }).map((counts) => (counts / 1000).toFixed(3).padStart(6, '0'));
    const lost = fc.array(fc.nat(1000), { maxLength: 8 });
    fc.assert(
      fc.property(fc.array(value, { minLength: 2, maxLength: 9 }), lost, (values, places) => {
        const bytes = places.reduce(
          (bytes, at) => spoiled(bytes, { at, how: 'drop', byte: 0, length: 1 }),
          latin1(values.map((each) => `${each} mm\r`).join('')),
        );
        const read = lineStream(format).push(bytes, 1);
        for (const line of read) if (!('why' in line)) expect(values.map(Number)).toContain(line.value);
      }),
      { numRuns: 3000 },
    );
  });
});

interface Spoil {
  readonly at: number;
  readonly how: 'drop' | 'insert' | 'replace' | 'cut' | 'double';
  readonly byte: number;
  readonly length: number;
}

function spoiled(bytes: Uint8Array, { at, how, byte, length }: Spoil): Uint8Array {
  const i = bytes.length === 0 ? 0 : at % bytes.length;
  const part = [...bytes.subarray(i, i + length)];
  const [before, after] = [[...bytes.subarray(0, i)], [...bytes.subarray(i)]];
  if (how === 'drop') return Uint8Array.from([...before, ...after.slice(1)]);
  if (how === 'insert') return Uint8Array.from([...before, byte, ...after]);
  if (how === 'replace') return Uint8Array.from([...before, byte, ...after.slice(1)]);
  if (how === 'cut') return Uint8Array.from([...before, ...after.slice(length)]);
  return Uint8Array.from([...before, ...part, ...after]);
}

/** Every number that stands whole in a line, found in another way than the reader finds it. */
function numbersIn(raw: Uint8Array): number[] {
  const text = Buffer.from(raw.map((byte) => (byte < 0x20 ? 0x20 : byte)))
    .toString('latin1')
    .replaceAll(/(?<=[A-Za-z]),(?=\d)/gu, ' ');
  const found = text.match(/[+-]?\s*(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?/gu) ?? [];
  const numbers = found.map((each) => Number(each.replaceAll(/\s/gu, '').replace(',', '.')));
  // "CH1-5" may be a name and a number below zero, or a name with a dash in it; both are in the line.
  return numbers.flatMap((each) => [each, each === 0 ? 0 : each]);
}
