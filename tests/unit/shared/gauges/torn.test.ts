import { describe, expect, it } from 'vitest';
import { randomStation } from '../../../../hardware-sim/hands/stations.ts';
import { type Random, seeded } from '../../../../hardware-sim/seeded.ts';
import { learnFormat } from '../../../../src/shared/gauges/learn/learnFormat.ts';
import { automatic, type LineFormat } from '../../../../src/shared/gauges/lineFormat.ts';
import { lineStream, type StreamLine } from '../../../../src/shared/gauges/lineStream.ts';
import { latin1 } from '../../../support/writeLine.ts';

type Way = (value: number) => string;
const signed: Way = (value) => `${value < 0 ? '-' : '+'}${Math.abs(value).toFixed(3)}`;

/** Widths that go with the number, and widths that do not. */
const free: Readonly<Record<string, Way>> = {
  bare: (value) => `${value.toFixed(3)}\r`,
  'with its unit': (value) => `${value.toFixed(3)} mm\r\n`,
  'with its plus': (value) => `${signed(value)} mm\r\n`,
};
const filled: Readonly<Record<string, Way>> = {
  'filled with blanks': (value) => `${value.toFixed(3).padStart(9)} mm\r\n`,
  'filled with noughts': (value) => `${signed(value)[0] ?? ''}${Math.abs(value).toFixed(3).padStart(8, '0')}\r`,
};

type Tear = (line: string, next: string, random: Random) => string;
const digit = (line: string, random: Random): number => {
  const at = Array.from(line.matchAll(/\d/gu), ({ index }) => index);
  return at[Math.floor(random.next() * at.length)] ?? 0;
};
const tears: Readonly<Record<string, Tear>> = {
  'a digit lost': (line, _next, random) => {
    const at = digit(line, random);
    return line.slice(0, at) + line.slice(at + 1);
  },
  'two bytes lost from a digit on': (line, _next, random) => {
    const at = digit(line, random);
    return line.slice(0, at) + line.slice(at + 2);
  },
  'its sign lost': (line) => line.replace(/[+-]/u, ''),
  'its point lost': (line) => line.replace('.', ''),
  'its head lost': (line, _next, random) => line.slice(1 + Math.floor(random.next() * 5)),
  'its tail lost behind a digit, line end kept': (line, _next, random) =>
    line.slice(0, digit(line, random) + 1) + (/[\r\n]+$/u.exec(line)?.[0] ?? ''),
  'its tail and its end lost': (line, next, random) => line.slice(0, digit(line, random) + 1) + next,
  'a digit twice': (line, _next, random) => {
    const at = digit(line, random);
    return line.slice(0, at + 1) + line.slice(at);
  },
  'the next line between its bytes': (line, next) =>
    Array.from({ length: Math.max(line.length, next.length) }, (_, i) => (line[i] ?? '') + (next[i] ?? '')).join(''),
};

const every = 20;
const torn = 500;

/** A spindle on its way through 15 mm and back at 100 lines a second, every twentieth line torn: how many wrong numbers came. */
function wrongNumbers(format: LineFormat, way: Way, tear: Tear): number {
  const random = seeded(18);
  const valueAt = (i: number): number => Number((15 * Math.sin(i / 61)).toFixed(3));
  const stream = lineStream(format, { ownUnit: 'mm' });
  let wrong = 0;
  for (let i = 0; i < every * torn; i += 1) {
    const line = way(valueAt(i));
    const bytes = i % every === every - 1 ? tear(line, way(valueAt(i + 1)), random) : line;
    const held = [valueAt(i - 1), valueAt(i), valueAt(i + 1)];
    for (const read of stream.push(latin1(bytes), i / 100))
      if (!('why' in read) && !held.some((value) => value === read.value)) wrong += 1;
  }
  return wrong;
}

const learned = (way: Way): LineFormat =>
  learnFormat(latin1(Array.from({ length: 80 }, (_, i) => way(Number((15 * Math.sin(i / 9)).toFixed(3)))).join('')))
    .format;

describe('a line with', () => {
  it.each(Object.entries(tears))(
    '%s gives no number of its own where lines are filled up to one length',
    (_name, tear) => {
      for (const way of Object.values(filled)) expect(wrongNumbers(learned(way), way, tear)).toBe(0);
    },
  );

  it.each(Object.entries(tears))(
    '%s is told by its neighbours where lines are as long as their number',
    (name, tear) => {
      // A sign lost within what the spindle moves from line to line nobody can tell; a few torn digits happen to be due.
      const most = name === 'its sign lost' ? 0.02 : 0.01;
      for (const way of Object.values(free))
        for (const format of [automatic, learned(way)])
          expect(wrongNumbers(format, way, tear) / torn).toBeLessThanOrEqual(most);
    },
  );
});

const readings = (lines: readonly StreamLine[]): number => lines.filter((line) => !('why' in line)).length;

it('of gears rocked by any hand before any indicator hardly a line is held back', () => {
  let sent = 0;
  let read = 0;
  for (let seed = 0; seed < 300; seed += 1) {
    const station = randomStation(seeded(seed));
    const decimals = 5;
    const stream = lineStream(automatic);
    for (const { t, value_mm } of station.readings) {
      sent += 1;
      read += readings(stream.push(latin1(`${value_mm.toFixed(decimals)} mm\r\n`), t));
    }
  }
  expect(sent).toBeGreaterThan(50_000);
  expect(1 - read / sent).toBeLessThan(0.001);
});

describe('a number with an exponent', () => {
  const feed = (text: string): unknown[] =>
    lineStream(automatic, { ownUnit: 'mm' })
      .push(latin1(text), 1)
      .map((line) => ('why' in line ? line.why : line.value));

  it.each([
    ['its point', '-19960E+0'],
    ['a digit of its mantissa', '-1.996E+0'],
    ['the sign of its exponent', '-1.9960E01'],
    ['a nought of its exponent', '-1.9960E+10'],
  ])('that lost or gained %s is held back', (_name, spoilt) => {
    const whole = '-1.9960E+00\r-1.9961E+00\r-1.9960E+00\r';
    const text = spoilt === '-1.9960E01' ? '-1.9960E-01\r-1.9961E-01\r-1.9960E-01\r' : whole;
    expect(feed(`${text}${spoilt}\r`).at(-1)).toBe('unlike-the-others');
  });

  it('may leave out the noughts at the end of its mantissa, once it has shown that it does', () => {
    const lines = Array.from({ length: 40 }, (_, i) => `+${(1.2 + i / 100).toString()}E+00\r`);
    expect(
      feed(lines.join(''))
        .slice(-10)
        .filter((value) => typeof value !== 'number'),
    ).toEqual([]);
  });
});

it('a piece of a line that can be read is none where the whole lines cannot', () => {
  const stream = lineStream(automatic, { ownUnit: 'mm' });
  const lines = Array.from({ length: 10 }, (_, i) => `01;${(i / 10).toFixed(3)};mm\r\n`).join('');
  expect(readings(stream.push(latin1(`${lines}3.039;mm\r\n${lines}01\r\n${lines}`), 1))).toBe(0);
});
