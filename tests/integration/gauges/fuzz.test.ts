import { expect, it } from 'vitest';
import { automatic } from '../../../src/shared/gauges/lineFormat.ts';
import { lineStream } from '../../../src/shared/gauges/lineStream.ts';

const seed = 20_261;
const millionBytes = 20;

/** A small generator of our own, so that the same bytes come every time (mulberry32, from memory). */
function seeded(state: number): () => number {
  let now = state;
  return () => {
    now = (now + 0x6d2b79f5) | 0;
    let mixed = Math.imul(now ^ (now >>> 15), now | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const ways: readonly ((value: string) => string)[] = [
  (value) => `${value} mm\r\n`,
  (value) => `X=${value.replace('.', ',')}mm\r`,
  (value) => `ST,GS, ${value},in\n`,
  (value) => `\u0002 ${value} N m\u0003\r`,
  (value) => `CH1: ${value} lbf in BATT\r\n`,
];

/** Lines of gauges with bytes lost, changed, added, doubled and run together, and stretches of plain noise. */
function* spoiltBytes(random: () => number): Generator<Uint8Array> {
  const whole = (most: number): number => Math.floor(random() * most);
  for (;;) {
    const way = ways[whole(ways.length)] ?? String;
    const lines = Array.from({ length: 200 }, () => way(((whole(200_000) - 100_000) / 1000).toFixed(3))).join('');
    const bytes = [...Buffer.from(lines, 'latin1')];
    for (let spoils = whole(400); spoils > 0; spoils -= 1) {
      const at = whole(bytes.length);
      const how = whole(5);
      if (how === 0) bytes.splice(at, 1 + whole(12));
      else if (how === 1) bytes[at] = whole(256);
      else if (how === 2) bytes.splice(at, 0, whole(256));
      else if (how === 3) bytes.splice(at, 0, ...bytes.slice(at, at + whole(30)));
      else bytes.splice(at, 0, ...Array.from({ length: whole(20) }, () => whole(256)));
    }
    yield Uint8Array.from(bytes);
    if (whole(10) === 0) yield Uint8Array.from({ length: 4000 }, () => whole(256));
    if (whole(40) === 0) yield new Uint8Array(20_000).fill(0x37);
  }
}

/** The numbers that stand in a line by themselves, with the sign in front of them, found without the reader's rules. */
function standsIn(raw: Uint8Array, value: number): boolean {
  const text = Buffer.from(raw.map((byte) => (byte < 0x20 ? 0x20 : byte)))
    .toString('latin1')
    // "GS,5": a comma between a letter and a digit parts them.
    .replaceAll(/(?<=[A-Za-z_#"]),(?=\d)/gu, ' ');
  const numbers = text.matchAll(/(?<![\d.])([+-]?)\s*((?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?)(?![\d.])/gu);
  for (const [, sign, digits = ''] of numbers) {
    const size = Number(digits.replace(',', '.'));
    if ((sign === '-' && size !== 0 ? -size : size) === value) return true;
  }
  return false;
}

it(`reads no number that its line does not hold in ${millionBytes} million bytes of spoilt lines and noise`, () => {
  const stream = lineStream(automatic);
  let bytes = 0;
  let readings = 0;
  let unreadable = 0;
  let longest = 0;
  for (const piece of spoiltBytes(seeded(seed))) {
    for (const line of stream.push(piece, bytes)) {
      longest = Math.max(longest, line.raw.length);
      if ('why' in line) {
        unreadable += 1;
        continue;
      }
      readings += 1;
      if (!standsIn(line.raw, line.value)) {
        expect.fail(`seed ${seed}, byte ${bytes}: ${line.value} from ${Buffer.from(line.raw).toString('latin1')}`);
      }
    }
    bytes += piece.length;
    if (bytes >= millionBytes * 1e6) break;
  }
  // Of an endless line 256 bytes are kept; nothing else is.
  expect(longest).toBeLessThanOrEqual(256);
  expect(readings).toBeGreaterThan(100_000);
  expect(unreadable).toBeGreaterThan(100_000);
});
