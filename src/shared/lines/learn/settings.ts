import type { SerialLine } from '../link.ts';
import { heardLines, shareOfText } from './heard-lines.ts';

/** Baud rates gauges use, the usual first (common practice). */
export const usualBauds: readonly number[] = [9600, 4800, 19_200, 2400, 38_400, 115_200, 57_600, 1200];

type Frame = Pick<SerialLine, 'bits' | 'parity'>;

const bytesToKnow = 40;

/**
 * A 7-bit sender with parity fills the same ten bits as 8N1. Read as 8N1 its parity shows as the top bit of every byte,
 * so the frame is worked out from what was heard instead of being tried.
 */
export function frameHeard(bytes: Uint8Array): Frame | undefined {
  if (bytes.length < bytesToKnow || bytes.every((byte) => byte < 0x80)) return undefined;
  const ones = Array.from(bytes, onesIn);
  if (ones.every((count) => count % 2 === 0)) return { bits: 7, parity: 'even' };
  if (ones.every((count) => count % 2 === 1)) return { bits: 7, parity: 'odd' };
  return bytes.every((byte) => byte >= 0x80) ? { bits: 7, parity: 'mark' } : undefined;
}

const onesIn = (byte: number): number => byte.toString(2).replaceAll('0', '').length;

/** 0 to 1: how much what was heard looks like lines of text. */
export function likeText(bytes: Uint8Array): number {
  const heard = heardLines(bytes);
  return heard === undefined ? 0 : shareOfText(heard.lines) * Math.min(1, heard.lines.length / 3);
}
