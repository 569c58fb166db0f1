import type { Fault } from './fault.ts';

/** The wire's level through one byte at eight bits without parity: start, eight bits from the lowest, stop. */
function levelsOf(byte: number): number[] {
  const bits = Array.from({ length: 8 }, (_, bit) => (byte >> bit) & 1);
  return [0, ...bits, 1];
}

const FRAME_BITS = 10;

/** What a receiver at another rate makes of the wire: it waits for a start, then looks at the middle of each of its own bits. */
function heardAt(levels: readonly number[], sentPerHeard: number): Uint8Array {
  const levelAt = (place: number): number => levels[Math.floor(place)] ?? 1;
  const heard: number[] = [];
  let place = 0;
  while (place < levels.length) {
    if (levelAt(place) === 1) {
      // The edge of a start can lie anywhere on the wire; a sixteenth of a bit is how finely receivers look for it.
      place += 1 / 16;
      continue;
    }
    const start = place;
    const bits = Array.from({ length: 8 }, (_, bit) => levelAt(start + (1.5 + bit) * sentPerHeard));
    heard.push(bits.reduce((byte, level, bit) => byte | (level << bit), 0));
    // No stop where one is due: as common receivers do, it takes that low level for the next start.
    const stops = levelAt(start + (FRAME_BITS - 0.5) * sentPerHeard) === 1;
    place = start + (FRAME_BITS - (stops ? 0.5 : 1)) * sentPerHeard;
  }
  return Uint8Array.from(heard);
}

/** Garbage as a wrong baud makes it: the same wire, read at another rate. */
export const wrongBaud =
  (sent_baud = 9600, heard_baud = 19_200): Fault =>
  (chunk) => [{ ...chunk, bytes: heardAt([...chunk.bytes].flatMap(levelsOf), sent_baud / heard_baud) }];

const onesIn = (byte: number): number => levelsOf(byte).reduce((sum, level) => sum + level, -1);

/** Sent as seven bits with parity, heard as eight without: the parity stands where the eighth bit should. */
export const wrongParity =
  (parity: 'even' | 'odd' = 'even'): Fault =>
  (chunk) => {
    const odd = parity === 'even' ? 0 : 1;
    const bytes = chunk.bytes.map((byte) => (byte & 0x7f) | (((onesIn(byte & 0x7f) + odd) & 1) << 7));
    return [{ ...chunk, bytes }];
  };
