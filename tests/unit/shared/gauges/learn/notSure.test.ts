import { describe, expect, it } from 'vitest';
import { isUnreadable } from '../../../../../src/shared/gauges/gaugeReading.ts';
import { learnFormat } from '../../../../../src/shared/gauges/learn/learnFormat.ts';
import { readLine } from '../../../../../src/shared/gauges/readLine.ts';
import { latin1 } from '../../../../support/writeLine.ts';

const count = 60;
/** A spindle moved smoothly there and back. */
const moved = (i: number): string => (2 * Math.sin(i / 7)).toFixed(3);
const inches = (i: number): string => ((2 * Math.sin(i / 7)) / 25.4).toFixed(4);
const counts = (i: number): string => String(Math.abs(Math.round(2000 * Math.sin(i / 7)))).padStart(4, '0');
/** Half a degree and less in all, as a gauge warms in the hand. */
const warmth = (i: number): string => (23.5 + Math.floor(i / 20) / 10).toFixed(1);
/** A clock whose beat is uneven, as a busy processor's is. */
const clock_s = (i: number): string => (i * 0.1 + ((i * 37) % 11) / 1000).toFixed(3);
const two = (i: number): string => String(i % 60).padStart(2, '0');

const learn = (line: (i: number) => string) =>
  learnFormat(latin1(Array.from({ length: count }, (_, i) => `${line(i)}\r\n`).join('')));

describe('learning is not sure', () => {
  it.each<[string, (i: number) => string, string]>([
    ['of a spindle that stands still, even with a unit', () => '0.500 mm', 'did-not-move'],
    ['of a last digit that flickers', (i) => `0.50${i % 2} mm`, 'did-not-move'],
    ['of a still spindle beside a temperature', (i) => `0.500;${warmth(i)}`, 'did-not-move'],
    ['of a still spindle with its unit beside a temperature', (i) => `0.500 mm ${warmth(i)} C`, 'did-not-move'],
    ['of a still spindle beside a battery', (i) => `0.500;3.${(i * 7) % 5}`, 'did-not-move'],
    ['of a still spindle behind a clock', (i) => `${clock_s(i)};0.500`, 'one-way'],
    ['of a still spindle behind the time of day', (i) => `17:01:${two(i)}.${(i * 37) % 900} 0.500 mm`, 'did-not-move'],
    ['of two axes in turn without a name', (i) => `${i % 2 === 0 ? moved(i) : moved(i + 11)} mm`, 'two-axes'],
    ['of an axis that moves and one that does not', (i) => `${i % 2 === 0 ? moved(i) : '0.250'} mm`, 'two-axes'],
    ['of three axes in turn', (i) => [moved(i), '0.250', moved(i + 20)][i % 3] ?? '', 'two-axes'],
    ['of axes named by a number', (i) => `${(i % 2) + 1}: ${moved(i)} mm`, 'two-axes'],
    ['of axes named by a number in a field', (i) => `${(i % 2) + 1},${moved(i)},mm`, 'two-axes'],
    ['of readings with a peak now and then', (i) => `${i % 10 === 9 ? 'MAX 2.000' : moved(i)} Nm`, 'some-unreadable'],
    ['of millimetres and inches in turn', (i) => (i % 2 === 0 ? `${moved(i)} mm` : `${inches(i)} in`), 'two-units'],
    ['of a comma behind a counter', (i) => `${i + 10},${counts(i)}`, 'comma'],
    ['of a comma behind a channel', (i) => `3,${counts(i)}`, 'comma'],
    ['of a comma before a state', (i) => `${counts(i)},0 mm`, 'comma'],
    ['of whole counts beside a temperature', (i) => `${counts(i)};${warmth(i)}`, 'no-decimals'],
  ])('%s', (_name, line, doubt) => {
    const learned = learn(line);
    expect(learned).toMatchObject({ sure: false, doubts: expect.arrayContaining([doubt]) });
    expect(learned.confidence).toBeLessThan(0.8);
  });

  it('offers each of two axes named by a number', () => {
    const learned = learn((i) => `${(i % 2) + 1},${moved(i)},mm`);
    for (const [format, own, other] of [
      [learned.format, '1,-0.250,mm', '2,-0.250,mm'],
      [learned.alternatives[0] ?? learned.format, '2,-0.250,mm', '1,-0.250,mm'],
    ] as const) {
      expect(readLine(format, latin1(own))).toMatchObject({ value: -0.25, unit: 'mm' });
      expect(readLine(format, latin1(other))).toEqual({ why: 'other-label' });
    }
  });
});

describe('among other numbers the one is found that follows the spindle', () => {
  it.each<[string, (i: number) => string, string, readonly [number, string] | 'not-sent']>([
    ['a temperature', (i) => `${moved(i)} mm ${warmth(i)} C`, '-1.250 mm 23.9 C', [-1.25, 'mm']],
    ['a clock', (i) => `${clock_s(i)};${moved(i)};mm`, '9.000;-1.250;mm', [-1.25, 'mm']],
    [
      'date and time',
      (i) => `2026-11-25 17:01:${two(i)} ${moved(i)} mm`,
      '2026-11-25 17:02:00 -1.250 mm',
      [-1.25, 'mm'],
    ],
    [
      'an angle whose unit is not the number\u2019s',
      (i) => `0.00 Nm ${(99 * Math.sin(i / 5)).toFixed(1)} deg`,
      '0.00 Nm -1.2 deg',
      [-1.2, 'deg'],
    ],
    [
      'commas and a state',
      (i) => `+${moved(i).replace('.', ',')}\tmm\tN`.replace('+-', '-'),
      '-1,250\tmm\tN',
      [-1.25, 'mm'],
    ],
    ['a unit before it and a counter', (i) => `${two(i)};mm ${moved(i)};7`, '07;mm -1.250;7', [-1.25, 'mm']],
  ])('beside %s', (_name, line, another, wanted) => {
    const learned = learn(line);
    expect(learned).toMatchObject({ sure: true });
    const read = readLine(learned.format, latin1(another));
    expect(isUnreadable(read) ? read.why : [read.value, read.unit]).toEqual(wanted);
  });

  it('and it is read on when it grows wider than it was while the bench listened', () => {
    const checked = (body: string): string =>
      body +
      Array.from(body)
        .reduce((sum, each) => sum ^ each.charCodeAt(0), 0)
        .toString(16)
        .toUpperCase()
        .padStart(2, '0');
    const signed = (i: number): string => `${moved(i).startsWith('-') ? '' : '+'}${moved(i)}`;
    const learned = learn((i) => checked(`${signed(i)} mm`));
    expect(learned.sure).toBe(true);
    expect(readLine(learned.format, latin1(checked('+10.250 mm')))).toMatchObject({ value: 10.25, unit: 'mm' });
  });
});
