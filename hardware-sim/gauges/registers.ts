import type { ModbusServed } from '../lines/modbusServer.ts';
import type { Shown } from './shown.ts';
import { displayDecimals } from './units.ts';

/** How a gauge holds what it shows in registers. Its own arithmetic, not the bench's. */
export interface AsRegisters {
  readonly unit: number;
  readonly register: number;
  /** Holding or input registers; both where left out. */
  readonly function?: 3 | 4;
  /** Bits of a whole number, signed by two's complement or not, or a float; 32 signed bits where left out. */
  readonly type?: 's16' | 'u16' | 's32' | 'u32' | 'f32';
  /** The lower half stands in the first of two registers. */
  readonly lowFirst?: boolean;
  /** What one of the number is worth in the gauge's unit; one of its last place where left out. */
  readonly step?: number;
}

/** The display as registers; a gauge that ails answers that it has failed. */
export function registersOf(held: AsRegisters, shown: () => Shown, ails: () => boolean): ModbusServed {
  return {
    unit: held.unit,
    ...(held.function === undefined ? {} : { function: held.function }),
    failed: () => ails() || shown().overload,
    register: (address) => wordsOf(held, shown())[address - held.register],
  };
}

function wordsOf({ type = 's32', lowFirst = false, step }: AsRegisters, { value, resolution }: Shown): number[] {
  const number = step === undefined ? value * 10 ** displayDecimals(resolution) : value / step;
  const bytes = new DataView(new ArrayBuffer(4));
  if (type === 'f32') bytes.setFloat32(0, number);
  else bytes.setInt32(0, Math.round(number));
  const [high, low] = [bytes.getUint16(0), bytes.getUint16(2)];
  if (type === 's16' || type === 'u16') return [low];
  return lowFirst ? [low, high] : [high, low];
}
