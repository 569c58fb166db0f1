/**
 * Whole numbers as few bytes: seven bits a byte, the lowest first, the eighth bit saying that more follow (as LEB128), with the
 * sign in the lowest bit. Good up to 2^52 either way.
 */
export interface NumberWriter {
  put(value: number): void;
  bytes(): Uint8Array;
}

export function numberWriter(): NumberWriter {
  let bytes = new Uint8Array(256);
  let length = 0;
  const room = (): void => {
    if (length + 10 <= bytes.length) return;
    const wider = new Uint8Array(bytes.length * 2);
    wider.set(bytes);
    bytes = wider;
  };
  return {
    put(value) {
      room();
      let left = value < 0 ? -2 * value - 1 : 2 * value;
      while (left >= 128) {
        bytes[length] = (left % 128) + 128;
        length += 1;
        left = Math.floor(left / 128);
      }
      bytes[length] = left;
      length += 1;
    },
    bytes: () => bytes.slice(0, length),
  };
}

/** Gives the numbers back one by one. @throws where there are no more */
export function numberReader(bytes: Uint8Array): () => number {
  let at = 0;
  return () => {
    let left = 0;
    let times = 1;
    for (;;) {
      const byte = bytes[at];
      if (byte === undefined) throw new RangeError('the numbers end too soon');
      at += 1;
      left += (byte % 128) * times;
      if (byte < 128) break;
      times *= 128;
    }
    return left % 2 === 0 ? left / 2 : -(left + 1) / 2;
  };
}

/** The largest whole number whose differences of differences are still exact. */
const largest = 2 ** 49;

/**
 * So many decimals, the fewest, in which all of the numbers are exactly whole numbers divided by a power of ten, as numbers read
 * from text are; undefined where there are none.
 */
export function decimalsOf(values: readonly number[], most: number): number | undefined {
  let decimals = 0;
  for (const value of values) {
    while (!isExact(value, decimals)) {
      decimals += 1;
      if (decimals > most) return undefined;
    }
  }
  // Whole numbers grow with the decimals: what fitted before may not fit any more.
  return values.every((value) => isExact(value, decimals)) ? decimals : undefined;
}

function isExact(value: number, decimals: number): boolean {
  const whole = wholeOf(value, decimals);
  return Math.abs(whole) < largest && Object.is(numberOf(whole, decimals), value);
}

/** Never a zero with a minus sign: no whole number is written with one. */
export const wholeOf = (value: number, decimals: number): number => Math.round(value * 10 ** decimals) + 0;
export const numberOf = (whole: number, decimals: number): number => whole / 10 ** decimals;

/** Numbers as they lie in memory, eight bytes each (IEEE 754, little end first). */
export function doubleBytes(values: readonly number[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(values.length * 8));
  for (const [index, value] of values.entries()) view.setFloat64(index * 8, value, true);
  return new Uint8Array(view.buffer);
}

/** @throws where there are no more */
export function doubleReader(bytes: Uint8Array): () => number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  return () => {
    const value = view.getFloat64(at, true);
    at += 8;
    return value;
  };
}
