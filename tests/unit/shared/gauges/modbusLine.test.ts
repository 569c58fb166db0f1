import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isUnreadable } from '../../../../src/shared/gauges/gaugeReading.ts';
import { parseLink } from '../../../../src/shared/gauges/link.ts';
import { modbusFormat, modbusLine } from '../../../../src/shared/gauges/modbus/modbusLine.ts';
import type { ModbusLink } from '../../../../src/shared/gauges/modbus/modbusLink.ts';
import { readLine } from '../../../../src/shared/gauges/readLine.ts';

function linkOf(options: string): ModbusLink {
  const link = parseLink(`modbus:/dev/x?${options}`);
  if (!link.ok || link.value.kind !== 'modbus') throw new Error('no Modbus link');
  return link.value;
}

/** What the registers become once they have gone through line and line format. */
function read(words: readonly number[], options: string): number | string {
  const link = linkOf(options);
  const line = modbusLine({ is: 'registers', words, frame: Uint8Array.of(1, 3, 2) }, link);
  const reading = readLine(modbusFormat(link), line.subarray(0, -1));
  return isUnreadable(reading) ? reading.why : reading.value;
}

const halves = (write: (view: DataView) => void): number[] => {
  const view = new DataView(new ArrayBuffer(4));
  write(view);
  return [view.getUint16(0), view.getUint16(2)];
};

describe('registers as a reading', () => {
  it.each([
    [[237], 'scale=0.001', 0.237],
    [[0xff_13], 'scale=0.001', -0.237],
    [[0xff_13], 'scale=0.001&type=u16', 65.299],
    [[0, 0], 'type=s32&scale=0.0001', 0],
    [[0xff_ff, 0xff_13], 'type=s32&scale=0.0001', -0.0237],
    [[0xff_13, 0xff_ff], 'type=s32&scale=0.0001&order=low-first', -0.0237],
    [halves((view) => view.setFloat32(0, 2.5)), 'type=f32', 2.5],
    [halves((view) => view.setFloat32(0, Number.NaN)), 'type=f32', 'gauge-error'],
  ])('%o by %s is %o', (words, options, value) => {
    expect(read(words, options)).toBe(value);
  });

  it('of any signed 32-bit number and scale is exactly the decimal number it stands for', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }),
        fc.integer({ min: 0, max: 6 }),
        (whole, decimals) => {
          const words = halves((view) => view.setInt32(0, whole));
          const scale = decimals === 0 ? '1' : `0.${'0'.repeat(decimals - 1)}1`;
          expect(read(words, `type=s32&scale=${scale}`)).toBe(Number(`${whole}e-${decimals}`));
        },
      ),
    );
  });

  it('are refused where the frame was spoilt or the gauge has an exception', () => {
    const link = linkOf('scale=0.001');
    const why = (line: Uint8Array): string => {
      const reading = readLine(modbusFormat(link), line.subarray(0, -1));
      return isUnreadable(reading) ? reading.why : 'read';
    };
    expect(why(modbusLine({ is: 'damaged', frame: Uint8Array.of(1, 3, 2, 0) }, link))).toBe('checksum');
    expect(why(modbusLine({ is: 'exception', code: 2, frame: Uint8Array.of(1, 131, 2) }, link))).toBe('gauge-error');
  });
});
