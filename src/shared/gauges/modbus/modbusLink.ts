import { type LinkRead, type reader, wrongPart } from '../linkOptions.ts';
import type { SerialLine } from '../serialLine.ts';

/** A gauge asked for its registers over Modbus RTU. */
export interface ModbusLink extends SerialLine {
  readonly kind: 'modbus';
  /** Its address on the line, 1 to 247. */
  readonly unit: number;
  /** Of the first register, counted from 0 as on the wire; makers' lists often count from 1. */
  readonly register: number;
  readonly function: 3 | 4;
  readonly type: 's16' | 'u16' | 's32' | 'u32' | 'f32';
  /** Which of two registers holds the upper half. */
  readonly order: 'high-first' | 'low-first';
  /** The number in the registers times this is the reading. */
  readonly scale: number;
  readonly every_ms: number;
}

export const numberTypes = ['s16', 'u16', 's32', 'u32', 'f32'] as const;
const orders = ['high-first', 'low-first'] as const;
/** At 9600 baud question and answer take about 20 ms together. */
const usualEvery_ms = 100;

type Reader = ReturnType<typeof reader>;

export function modbusLink(line: SerialLine, read: Reader): LinkRead<ModbusLink> {
  const unit = read.whole('unit', 1, 1, 247);
  const register = read.whole('register', 0, 0, 65_535);
  const asked = read.oneOf('function', '3', ['3', '4']) === '4' ? 4 : 3;
  const type = read.oneOf('type', 's16', numberTypes);
  const order = read.oneOf('order', 'high-first', orders);
  const scale = read.decimal('scale', 1, 1e-9, 1e6);
  const every_ms = read.whole('every', usualEvery_ms, 20, 3_600_000);
  if (line.bits !== 8) read.refuse(wrongPart('bits', 'Modbus RTU needs 8 bits', 'Leave "bits" out.'));
  return read.finish({ kind: 'modbus', ...line, unit, register, function: asked, type, order, scale, every_ms });
}

/** The options again as text; what is usual is left out. */
export function modbusOptions(link: ModbusLink): (readonly [string, string])[] {
  const options: (readonly [string, string])[] = [
    ['unit', String(link.unit)],
    ['register', String(link.register)],
  ];
  if (link.function !== 3) options.push(['function', String(link.function)]);
  if (link.type !== 's16') options.push(['type', link.type]);
  if (link.order !== 'high-first') options.push(['order', link.order]);
  if (link.scale !== 1) options.push(['scale', String(link.scale)]);
  if (link.every_ms !== usualEvery_ms) options.push(['every', String(link.every_ms)]);
  return options;
}
