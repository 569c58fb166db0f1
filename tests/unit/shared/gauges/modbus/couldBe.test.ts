import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { couldBe } from '../../../../../src/shared/gauges/modbus/couldBe.ts';

const word = fc.integer({ min: 0, max: 0xff_ff });
const readAs = (words: readonly [number, number], type: string, order = 'high-first', scale = 1) =>
  couldBe(words, scale).find((way) => way.type === type && way.order === order)?.value;

describe('what two registers could be', () => {
  it('is every way to read them, the gauge’s own among them', () => {
    // −2.001 as thousandths in 32 bits, upper half second.
    expect(readAs([0xf8_2f, 0xff_ff], 's32', 'low-first', 0.001)).toBeCloseTo(-2.001, 9);
    expect(readAs([0xf8_2f, 0xff_ff], 's16', 'high-first', 0.001)).toBeCloseTo(-2.001, 9);
    expect(readAs([0xf8_2f, 0xff_ff], 'u16')).toBe(0xf8_2f);
    // 1.5 as a float.
    expect(readAs([0x3f_c0, 0], 'f32')).toBe(1.5);
    expect(readAs([0, 0x3f_c0], 'f32', 'low-first')).toBe(1.5);
  });

  it('leaves out what is no number', () => {
    expect(readAs([0x7f_c0, 0], 'f32')).toBeUndefined();
    expect(couldBe([0x7f_80, 0], 1).every(({ value }) => Number.isFinite(value))).toBe(true);
  });

  it('names each way once, whatever stands there', () => {
    fc.assert(
      fc.property(word, word, (first, second) => {
        const ways = couldBe([first, second], 1);
        expect(new Set(ways.map(({ type, order }) => `${type} ${order}`)).size).toBe(ways.length);
        expect(ways.length).toBeGreaterThanOrEqual(6);
        expect(ways.every(({ value }) => value === 0 || Math.abs(value) > 1e-9)).toBe(true);
        expect(readAs([first, second], 'u32')).toBe(first * 0x1_00_00 + second);
      }),
    );
  });
});
