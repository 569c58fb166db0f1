import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLength, parseQuantity, parseTorque } from '../../../../src/shared/basics/parse.ts';
import { show, showText } from '../../../../src/shared/basics/show.ts';
import { fromInside, toInside, unitNamed, units } from '../../../../src/shared/basics/units.ts';

describe('units', () => {
  // Source: 1 in = 25.4 mm and lbf = 4.4482216152605 N are exact by definition; products computed, see tests/published for UCUM.
  it('converts by the exact definitions', () => {
    expect(toInside(1, units.in)).toBe(25.4);
    expect(toInside(1, units.inLb)).toBeCloseTo(0.1129848290276167, 15);
    expect(toInside(1, units.ftLb)).toBeCloseTo(1.3558179483314004, 14);
  });

  it('comes back from any unit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.constantFrom(...Object.values(units)),
        (value, unit) => {
          expect(fromInside(toInside(value, unit), unit)).toBeCloseTo(value, 6);
        },
      ),
    );
  });

  it('knows a unit by its UCUM code and by what people write', () => {
    for (const unit of Object.values(units)) expect(unitNamed(unit.ucum)).toBe(unit);
    expect(unitNamed(' IN-LB ')).toBe(units.inLb);
    expect(unitNamed('furlong')).toBeUndefined();
  });
});

describe('typed quantities', () => {
  it('reads millimetres, inches and decimal commas', () => {
    expect(parseLength('0.2mm', '--max')).toMatchObject({ ok: true, value: 0.2 });
    expect(parseLength('.008 in', '--max')).toMatchObject({ ok: true, value: 0.008 * 25.4 });
    expect(parseLength('0,25 mm', '--max')).toMatchObject({ ok: true, value: 0.25 });
    expect(parseTorque('20 in-lb', '--max')).toMatchObject({ ok: true, value: 20 * 4.4482216152605 * 0.0254 });
  });

  it.each([
    ['0.2', 'no-unit'],
    ['wide', 'not-a-number'],
    ['0.2 N.m', 'wrong-unit'],
    ['0.2 cubits', 'wrong-unit'],
  ])('refuses %s and names the field', (text, kind) => {
    const result = parseQuantity(text, 'length', '--max');
    expect(result).toMatchObject({ ok: false, problem: { kind, field: '--max' } });
  });
});

describe('shown quantities', () => {
  it('shows metric and inch, with as many decimals as the gauge resolves', () => {
    expect(showText(0.2, 'length', 'metric')).toBe('0.200 mm');
    expect(showText(0.2, 'length', 'metric', 0.01)).toBe('0.20 mm');
    expect(showText(0.2032, 'length', 'inch')).toBe('0.0080 in');
    expect(showText(0.2032, 'length', 'inch', 0.0127)).toBe('0.0080 in');
    expect(showText(2, 'torque', 'inch')).toBe('17.7 in-lb');
  });

  it('shows the torque of a fastener in lb-ft, and that of a bearing in in-lb', () => {
    expect(showText(80, 'torque', 'inch')).toBe('59.0 lb-ft');
    expect(showText(3, 'torque', 'inch')).toBe('26.6 in-lb');
    expect(showText(80, 'torque', 'metric')).toBe('80.00 N·m');
  });

  it('writes a true minus and no minus zero', () => {
    expect(show(-0.0001, 'length', 'metric').digits).toBe('0.000');
    expect(show(-0.02, 'length', 'metric').digits).toBe('−0.020');
  });
});
