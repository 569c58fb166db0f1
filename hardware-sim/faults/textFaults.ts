import type { Random } from '../seeded.ts';
import type { Fault } from './fault.ts';

const LINE_ENDS = new Set([0x0d, 0x0a, 0x03]);

const isEnd = (byte: number): boolean => LINE_ENDS.has(byte);
const bytesOf = (...parts: readonly Uint8Array[]): Uint8Array => Buffer.concat(parts);

/** Length of the text without what ends the line. */
function textLength(bytes: Uint8Array): number {
  let length = bytes.length;
  while (length > 0 && isEnd(bytes[length - 1] ?? 0)) length -= 1;
  return length;
}

const cutPlace = (bytes: Uint8Array, random: Random): number =>
  1 + Math.floor(random.next() * Math.max(1, textLength(bytes) - 1));

/** Now and then a line loses its head or its tail, line end included: what is left runs into the next one. */
export const halfLines =
  (random: Random, share = 0.2): Fault =>
  (chunk) => {
    if (random.next() >= share) return [chunk];
    const place = cutPlace(chunk.bytes, random);
    const left = random.next() < 0.5 ? chunk.bytes.subarray(place) : chunk.bytes.subarray(0, place);
    return [{ ...chunk, bytes: left }];
  };

/** Now and then a line comes without its end, so that two stand as one. */
export const gluedLines =
  (random: Random, share = 0.2): Fault =>
  (chunk) =>
    random.next() < share ? [{ ...chunk, bytes: chunk.bytes.subarray(0, textLength(chunk.bytes)) }] : [chunk];

/** Now and then a line comes twice. */
export const doubledLines =
  (random: Random, share = 0.2): Fault =>
  (chunk) =>
    random.next() < share ? [{ ...chunk, bytes: bytesOf(chunk.bytes, chunk.bytes) }] : [chunk];

/** No fault of the gauge, only of the cable's timing: a line arrives in two pieces, the second a little late. */
export const splitLines =
  (random: Random, share = 0.5, late_s = 0.002): Fault =>
  (chunk) => {
    if (random.next() >= share) return [chunk];
    const place = cutPlace(chunk.bytes, random);
    return [
      { ...chunk, bytes: chunk.bytes.subarray(0, place) },
      { t_s: chunk.t_s + late_s, bytes: chunk.bytes.subarray(place) },
    ];
  };

/** The display has stopped: the first line is sent for ever. */
export function frozen(): Fault {
  let first: Uint8Array | undefined;
  return (chunk) => {
    first ??= chunk.bytes;
    return [{ ...chunk, bytes: first }];
  };
}

export const silence: Fault = (chunk) => [{ ...chunk, bytes: new Uint8Array(0) }];

/** The gauge runs away: the latest line again and again, so many a second, until the next comes. */
export function flood(lines_per_s = 5000): Fault {
  let before_s: number | undefined;
  return (chunk) => {
    const gap_s = before_s === undefined ? 0 : chunk.t_s - before_s;
    before_s = chunk.t_s;
    const copies = Math.max(1, Math.round(gap_s * lines_per_s));
    return Array.from({ length: copies }, (_, copy) => ({ ...chunk, t_s: chunk.t_s + copy / lines_per_s }));
  };
}

/** Nothing ever ends a line. */
export const endless: Fault = (chunk) => [{ ...chunk, bytes: chunk.bytes.filter((byte) => !isEnd(byte)) }];

/** Bytes of any value in place of the line, or between two lines. */
export const binaryNoise =
  (random: Random, share = 0.5): Fault =>
  (chunk) => {
    const noise = Uint8Array.from({ length: 1 + Math.floor(random.next() * 40) }, () =>
      Math.floor(random.next() * 256),
    );
    return [{ ...chunk, bytes: random.next() < share ? noise : bytesOf(noise, chunk.bytes) }];
  };
