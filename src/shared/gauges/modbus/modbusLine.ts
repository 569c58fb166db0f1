import { decimalsWritten } from '../../basics/show.ts';
import { type LineFormat, lineFormatSchema } from '../lineFormat.ts';
import { bytesOf } from '../text.ts';
import type { RegisterAnswer, RegisterQuestion } from './frame.ts';
import type { ModbusLink } from './modbusLink.ts';

/**
 * A gauge that is asked for registers takes the same way as every other: each answer becomes one line, the frame in
 * hexadecimal and the number that was read from it, and goes through line format, reading and journal. So the journal
 * keeps what came over the wire beside what was made of it.
 */
export const questionOf = (link: ModbusLink): RegisterQuestion => ({
  unit: link.unit,
  function: link.function,
  register: link.register,
  count: link.type === 's16' || link.type === 'u16' ? 1 : 2,
});

/** How those lines are read. The number is filled up with zeros: nothing about its length can then be taken for a lost byte. */
export function modbusFormat(link: ModbusLink): LineFormat {
  return lineFormatSchema.parse({
    kind: 'axlewright-line-format',
    version: 1,
    name: 'registers over Modbus',
    lineEnd: '\n',
    number: { at: 'field', separator: ' ', field: 2 },
    decimal: '.',
    unit: { is: 'not-sent' },
    decimals: decimalsOf(link),
    checksum: { is: 'xor-hex' },
  });
}

/** The line for an answer. One whose CRC does not fit gets no check characters of ours either, and is refused for that. */
export function modbusLine(answer: Exclude<RegisterAnswer, { is: 'incomplete' }>, link: ModbusLink): Uint8Array {
  const frame = hex(answer.frame);
  if (answer.is === 'damaged') return bytesOf(`${frame} ??\n`);
  const said = answer.is === 'exception' ? `ERROR ${answer.code}` : numberText(answer.words, link);
  const text = `${frame} ${said} `;
  return bytesOf(`${text}${checkOf(text)}\n`);
}

const checkOf = (text: string): string => hex(Uint8Array.of([...bytesOf(text)].reduce((sum, byte) => sum ^ byte, 0)));

const hex = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join('');

/** A 32-bit float tells about seven digits; six decimals keep those of any reading in mm or N·m. */
const decimalsOfFloat = 6;

function decimalsOf({ type, scale }: ModbusLink): number {
  return type === 'f32' ? decimalsOfFloat : Math.min(12, decimalsWritten(scale));
}

/** Sign, and digits filled up to ten before the point: 32 bits have no more. */
function numberText(words: readonly number[], link: ModbusLink): string {
  const value = numberIn(words, link) * link.scale;
  if (!Number.isFinite(value) || Math.abs(value) >= 1e10) return 'ERROR';
  const digits = Math.abs(value).toFixed(decimalsOf(link));
  const width = 10 + (digits.includes('.') ? digits.length - digits.indexOf('.') : 0);
  return `${value < 0 ? '-' : '+'}${digits.padStart(width, '0')}`;
}

/** The number in one register or two, before it is scaled; not finite where a float holds none. */
export function numberIn(words: readonly number[], { type, order }: Pick<ModbusLink, 'type' | 'order'>): number {
  const [first = 0, second = 0] = words;
  const view = new DataView(new ArrayBuffer(4));
  if (type === 's16' || type === 'u16') {
    view.setUint16(0, first);
    return type === 's16' ? view.getInt16(0) : view.getUint16(0);
  }
  view.setUint16(0, order === 'high-first' ? first : second);
  view.setUint16(2, order === 'high-first' ? second : first);
  if (type === 'f32') return view.getFloat32(0);
  return type === 's32' ? view.getInt32(0) : view.getUint32(0);
}
