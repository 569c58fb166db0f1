import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  PLAIN_LINE,
  PLAIN_NUMBER,
  SHAPES,
  type LineShape,
  type ShapeName,
} from '../../../../hardware-sim/gauges/lineShape.ts';
import { lineWriter, numberText } from '../../../../hardware-sim/gauges/lineWriter.ts';
import type { Shown } from '../../../../hardware-sim/gauges/shown.ts';
import { stepped } from '../../../../hardware-sim/gauges/units.ts';

const shown = (value: number, changes: Partial<Shown> = {}): Shown => ({
  value,
  unit: 'mm',
  resolution: 0.0001,
  overload: false,
  ...changes,
});
const INCH = { unit: '[in_i]', resolution: 0.0001 } as const;
const lines = (shape: LineShape, ...readings: readonly Shown[]): string => {
  const writer = lineWriter(shape);
  return readings.map((reading) => Buffer.from(writer.write(reading)).toString('latin1')).join('');
};

describe('a line writer', () => {
  it.each<[ShapeName, Shown, string]>([
    ['plain', shown(0.1234), '+0.1234 mm\r\n'],
    ['plain', shown(-12.5, { unit: 'N.m', resolution: 0.05 }), '-12.50 Nm\r\n'],
    ['bare', shown(-0.0048, INCH), '-.0048 in\r\n'],
    ['comma', shown(0.1234), '0,1234 mm\r\n'],
    ['unitless', shown(0.1234), '+0.1234\r'],
    ['tight', shown(0.1234), '0.1234mm\n'],
    ['labelled', shown(0.1234), 'A: +0.1234 mm\r\n'],
    ['unit first', shown(1.5), 'mm 1.5000\r\n'],
    ['sign column', shown(-0.0048), '-  0.0048 mm\r\n'],
    ['columns', shown(0.1234), '   +0.1234\r\n'],
    ['zero filled', shown(-0.1234), '-000.1234\r\n'],
    ['framed', shown(0.1234), '\u0002+0.1234 mm\u0003'],
    ['fields', shown(0.1234), '01;23.5;+0.1234 mm;0;N\r\n'],
    ['whole', shown(-0.1234), '-1234\r\n'],
    ['decimal', shown(0.1234), '+0.1234\n'],
    ['exponent', shown(0.1234), '+1.234E-1\n'],
    ['exponent', shown(-5), '-5.0E+0\n'],
    ['two axes', shown(0.1234), 'X +0.1234 mm\r\nY +0.0000 mm\r\n'],
  ])('of shape %s', (name, reading, expected) => {
    expect(lines(SHAPES[name], reading)).toBe(expected);
  });

  it('adds a checksum that the bytes before it bear out', () => {
    // Derived by hand: '+0.1234 mm' sums to 0x2b+0x30+0x2e+0x31+0x32+0x33+0x34+0x20+0x6d+0x6d = 0x24d.
    expect(lines(SHAPES['sum checked'], shown(0.1234))).toBe('+0.1234 mm4D\r\n');
    // ones that meet twice vanish: 2b^30^2e^31^32^33^34^20^6d^6d = 0x11.
    expect(lines(SHAPES['xor checked'], shown(0.1234))).toBe('\u0002+0.1234 mm11\u0003\r\n');
  });

  it('counts its lines and begins anew after 99', () => {
    const text = lines(SHAPES.counted, ...Array.from({ length: 102 }, () => shown(0)));
    const counters = text.split('\r\n').map((line) => line.slice(0, 2));
    expect([counters[0], counters[99], counters[100]]).toEqual(['00', '99', '00']);
  });

  it('says a word where there is no number', () => {
    expect(lines(PLAIN_LINE, shown(9, { overload: true }))).toBe('OVER\r\n');
    expect(Buffer.from(lineWriter(PLAIN_LINE).ail('lowBattery')).toString()).toBe('BATTERY\r\n');
  });

  it('writes every number so that it reads back as itself', () => {
    const forms = fc.constantFrom('fixed', 'NR2', 'NR3');
    const steps = fc.constantFrom(0.01, 0.005, 0.001, 0.0005, 0.0001, 0.00002);
    fc.assert(
      fc.property(
        forms,
        steps,
        fc.double({ min: -99, max: 99, noNaN: true }),
        fc.boolean(),
        (form, resolution, raw, zero) => {
          const value = stepped(raw, resolution);
          const text = numberText({ value, resolution }, { ...PLAIN_NUMBER, form, leadingZero: zero });
          expect(Number(text)).toBe(value);
        },
      ),
    );
  });
});
