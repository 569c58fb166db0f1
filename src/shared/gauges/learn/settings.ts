import type { SerialLine } from '../serialLine.ts';
import { textOf } from '../text.ts';
import { heardLines, shareOfText } from './heardLines.ts';

/** Baud rates gauges use, the usual first (common practice). */
const usualBauds: readonly number[] = [9600, 4800, 19_200, 2400, 38_400, 115_200, 57_600, 1200];

type Frame = Pick<SerialLine, 'bits' | 'parity'>;
type Settings = Frame & Pick<SerialLine, 'baud' | 'stop'>;

/** Eleven bits a character: read as 8N1 these lose characters, so they have to be tried. */
const withParity: readonly (Frame & Pick<SerialLine, 'stop'>)[] = [
  { bits: 8, parity: 'even', stop: 1 },
  { bits: 8, parity: 'odd', stop: 1 },
];
const plain = { bits: 8, parity: 'none', stop: 1 } as const;
/** A gauge that is asked has to understand the question before it says anything from which its frame could be worked out. */
const onlyAsked: readonly (Frame & Pick<SerialLine, 'stop'>)[] = [
  { bits: 7, parity: 'even', stop: 1 },
  { bits: 7, parity: 'odd', stop: 1 },
  { bits: 8, parity: 'none', stop: 2 },
];

/**
 * Settings worth listening with, the likely first: other frames at the baud rate given, then other rates, then both. A second
 * stop bit is no setting to look for in what a gauge sends: a receiver looks at the first only.
 */
export function settingsToTry(now: Settings, asked: boolean): Settings[] {
  const frames = [...withParity, ...(asked ? onlyAsked : [])];
  const bauds = usualBauds.filter((baud) => baud !== now.baud);
  const all = [
    ...[plain, ...frames].map((frame) => ({ ...frame, baud: now.baud })),
    ...bauds.map((baud) => ({ ...plain, baud })),
    ...bauds.flatMap((baud) => frames.map((frame) => ({ ...frame, baud }))),
  ];
  return all.filter(({ baud, bits, parity, stop }) => {
    const same = baud === now.baud && bits === now.bits && parity === now.parity && stop === now.stop;
    return !same;
  });
}

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

/** A gauge has few kinds of line: those of one axis or two. */
const kindsOfLine = 2;

/**
 * 0 to 1: how much what was heard looks like the lines of one gauge. Text alone is not enough: where a parity bit stands
 * in the place of a stop bit characters are lost, and what is left is text, but no two lines are built alike.
 */
export function likeLines(bytes: Uint8Array): number {
  const lines = heardLines(bytes)?.lines ?? [];
  const kinds = new Map<string, number>();
  for (const line of lines) kinds.set(kindOf(line), (kinds.get(kindOf(line)) ?? 0) + 1);
  const usual = [...kinds.values()].toSorted((a, b) => b - a).slice(0, kindsOfLine);
  return (likeText(bytes) * usual.reduce((sum, count) => sum + count, 0)) / Math.max(1, lines.length);
}

/** How a line is built, whatever its sign and however large its number: decimals are counted, digits before them are not. */
const kindOf = (line: Uint8Array): string =>
  textOf(line)
    .replaceAll(/[+-] */gu, '')
    .replaceAll(/\d+(?=[.,])/gu, '0')
    .replaceAll(/\d/gu, '9');
