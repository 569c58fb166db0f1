/**
 * Frames of Modbus over a serial line (RTU), after the Modbus application protocol specification V1.1b3 and the guide for
 * serial lines V1.02: only the two questions a gauge is asked, and what may come back. Written here rather than taken from a
 * library so that bytes pass through our own guarded serial port, and nothing is opened beside it (docs/decisions/0006).
 */

/** 3 reads holding registers, 4 input registers. */
type ReadFunction = 3 | 4;

export interface RegisterQuestion {
  readonly unit: number;
  readonly function: ReadFunction;
  /** As on the wire, counted from 0. */
  readonly register: number;
  readonly count: number;
}

export type RegisterAnswer =
  | { readonly is: 'incomplete' }
  | { readonly is: 'registers'; readonly words: readonly number[]; readonly frame: Uint8Array }
  | { readonly is: 'exception'; readonly code: number; readonly frame: Uint8Array }
  /** Bytes that are no answer to this question: lost or spoilt on the way, or another unit's. */
  | { readonly is: 'damaged'; readonly frame: Uint8Array };

const crcBytes = 2;
const longestFrame = 256;

/** CRC-16 with the reflected polynomial A001, begun with all ones. */
export function crc16(bytes: Uint8Array): number {
  let crc = 0xff_ff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc & 1) === 0 ? crc >> 1 : (crc >> 1) ^ 0xa0_01;
  }
  return crc;
}

/** The frame that asks; the CRC goes low byte first, everything else high byte first. */
export function questionFrame({ unit, function: asked, register, count }: RegisterQuestion): Uint8Array {
  const body = [unit, asked, register >> 8, register & 0xff, count >> 8, count & 0xff];
  return withCrc(Uint8Array.from(body));
}

function withCrc(body: Uint8Array): Uint8Array {
  const crc = crc16(body);
  return Uint8Array.from([...body, crc & 0xff, crc >> 8]);
}

/** What the bytes that came since a question was asked mean. A two-wire adapter that hears itself repeats the question first. */
export function answerIn(heard: Uint8Array, question: RegisterQuestion): RegisterAnswer {
  const bytes = withoutEcho(heard, questionFrame(question));
  const unit = bytes[0];
  const asked = bytes[1];
  if (unit === undefined || asked === undefined) return { is: 'incomplete' };
  const isException = asked === (question.function | 0x80);
  const dataBytes = 2 * question.count;
  const foreign = unit !== question.unit || (asked !== question.function && !isException);
  const otherLength = asked === question.function && bytes[2] !== undefined && bytes[2] !== dataBytes;
  if (foreign || otherLength || bytes.length > longestFrame) return { is: 'damaged', frame: bytes };
  const wanted = 3 + (isException ? 0 : dataBytes) + crcBytes;
  if (bytes.length < wanted) return { is: 'incomplete' };
  const frame = bytes.subarray(0, wanted);
  if (bytes.length > wanted || crc16(frame) !== 0) return { is: 'damaged', frame: bytes };
  if (isException) return { is: 'exception', code: frame[2] ?? 0, frame };
  return { is: 'registers', words: wordsIn(frame.subarray(3, 3 + dataBytes)), frame };
}

function withoutEcho(heard: Uint8Array, question: Uint8Array): Uint8Array {
  const isEcho = heard.length >= question.length && question.every((byte, i) => heard[i] === byte);
  return isEcho ? heard.subarray(question.length) : heard;
}

const wordsIn = (data: Uint8Array): number[] =>
  Array.from({ length: data.length / 2 }, (_, i) => ((data[2 * i] ?? 0) << 8) | (data[2 * i + 1] ?? 0));
