import { describe, expect, it } from 'vitest';
import { answerIn, crc16, questionFrame } from '../../../src/shared/gauges/modbus/frame.ts';
import { modbusServer } from '../../../hardware-sim/lines/modbusServer.ts';

// Where each frame comes from stands in SOURCES.md.
const bytes = (hex: string): Uint8Array => Uint8Array.from(hex.split(' '), (each) => Number.parseInt(each, 16));
const hex = (frame: Uint8Array): string =>
  Array.from(frame, (byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');

const holding = (unit: number) => ({ unit, function: 3, register: 0x6b, count: 3 }) as const;
const input = (unit: number) => ({ unit, function: 4, register: 8, count: 1 }) as const;

describe('Modbus RTU as published', () => {
  it('has the CRC of the serial line guide and the usual check value', () => {
    expect(crc16(bytes('02 07'))).toBe(0x12_41);
    expect(crc16(new TextEncoder().encode('123456789'))).toBe(0x4b_37);
    // Over a whole frame, its own CRC included, nothing is left.
    expect(crc16(bytes('02 07 41 12'))).toBe(0);
  });

  it.each([
    [holding(1), '01 03 00 6B 00 03 74 17'],
    [holding(17), '11 03 00 6B 00 03 76 87'],
    [input(1), '01 04 00 08 00 01 B0 08'],
    [input(17), '11 04 00 08 00 01 B2 98'],
    [{ unit: 1, function: 3, register: 0, count: 2 } as const, '01 03 00 00 00 02 C4 0B'],
    [{ unit: 1, function: 3, register: 0, count: 1 } as const, '01 03 00 00 00 01 84 0A'],
  ])('asks %o by %s', (question, frame) => {
    expect(hex(questionFrame(question))).toBe(frame);
  });

  it.each([
    [holding(1), '01 03 06 02 2B 00 00 00 64 05 7A', [555, 0, 100]],
    [holding(17), '11 03 06 02 2B 00 00 00 64 C8 BA', [555, 0, 100]],
    [input(1), '01 04 02 00 0A 39 37', [10]],
    [input(17), '11 04 02 00 0A F8 F4', [10]],
  ])('reads the answer to %o: %s', (question, frame, words) => {
    expect(answerIn(bytes(frame), question)).toMatchObject({ is: 'registers', words });
    // An adapter that hears itself gives the question back first.
    const echoed = Uint8Array.from([...questionFrame(question), ...bytes(frame)]);
    expect(answerIn(echoed, question)).toMatchObject({ is: 'registers', words });
    for (let cut = 0; cut < bytes(frame).length; cut += 1)
      expect(answerIn(bytes(frame).subarray(0, cut), question)).toEqual({ is: 'incomplete' });
  });

  it('reads an exception, and refuses an answer with any one bit turned, of another unit, or with a wrong CRC', () => {
    expect(answerIn(bytes('01 83 02 C0 F1'), holding(1))).toMatchObject({ is: 'exception', code: 2 });
    const right = bytes('01 03 06 02 2B 00 00 00 64 05 7A');
    for (let bit = 0; bit < right.length * 8; bit += 1) {
      const turned = right.map((byte, i) => (i === bit >> 3 ? byte ^ (1 << (bit & 7)) : byte));
      expect(answerIn(turned, holding(1)).is).not.toBe('registers');
    }
    expect(answerIn(bytes('11 03 06 02 2B 00 00 00 64 C8 BA'), holding(1)).is).toBe('damaged');
    expect(crc16(bytes('01 03 00 6B 00 03 76 87'))).not.toBe(0);
    expect(crc16(bytes('01 03 00 6B 00 03 39 80'))).not.toBe(0);
  });

  it('is spoken by the simulated gauge too, which has its own arithmetic', () => {
    const registers = new Map([
      [0x6b, 555],
      [0x6c, 0],
      [0x6d, 100],
    ]);
    const answer = modbusServer({ unit: 1, register: (address) => registers.get(address) });
    expect(answer(bytes('01 03 00 6B 00 03 74 17')).map(hex)).toEqual(['01 03 06 02 2B 00 00 00 64 05 7A']);
    expect(answer(bytes('01 03 00 6C 00 03')).map(hex)).toEqual([]);
    const fresh = modbusServer({ unit: 1, register: (address) => registers.get(address) });
    expect(fresh(questionFrame({ unit: 1, function: 3, register: 0x6d, count: 2 })).map(hex)).toEqual([
      '01 83 02 C0 F1',
    ]);
  });
});
