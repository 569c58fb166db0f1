/**
 * Gauges speak a byte a character. Bytes become text one to one (ISO 8859-1), so that columns stay columns
 * and nothing is lost; only µ, · and ° written as two bytes of UTF-8 are folded into one.
 */
export function textOf(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text.replaceAll(/\u00c2(?=[\u00b0\u00b5\u00b7])/gu, '');
}

export function bytesOf(text: string): Uint8Array {
  return Uint8Array.from(text, (character) => character.charCodeAt(0) & 0xff);
}

/** Start and end of text, tab, and filling NULs: control characters that a line may carry. */
// oxlint-disable-next-line no-control-regex -- control characters are what this is about
const harmless = /[\u0000\u0002\u0003\t]/gu;
// oxlint-disable-next-line no-control-regex -- control characters are what this is about
const noise = /[\u0000-\u001f\u007f-\u00a0]|[\u00a1-\u00ff](?<![\u00b0\u00b5\u00b7])/u;

/** True when the line holds characters that no gauge means: what a wrong baud rate or a bad cable makes of text. */
export const isNoise = (text: string): boolean => noise.test(text.replaceAll(harmless, ''));

/** The text without what only frames it. */
export const withoutFrame = (text: string): string => text.replaceAll(harmless, ' ').trim();

/** Raw bytes as a person can read them beside a reading: control characters as ␍ ␊ ␂, others as ‹9F›. */
export function showRaw(bytes: Uint8Array): string {
  let shown = '';
  for (const byte of bytes) {
    if (byte < 0x20) shown += String.fromCharCode(0x24_00 + byte);
    else if (byte < 0x7f) shown += String.fromCharCode(byte);
    else shown += `‹${byte.toString(16).toUpperCase().padStart(2, '0')}›`;
  }
  return shown;
}
