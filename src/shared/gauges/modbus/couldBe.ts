import { type ModbusLink, numberTypes } from './modbusLink.ts';
import { numberIn } from './modbusLine.ts';

/** One way to read two registers, and the number they come to that way. */
export interface CouldBe {
  readonly type: ModbusLink['type'];
  readonly order: ModbusLink['order'];
  readonly value: number;
}

/** Whole numbers taken for a float come to next to nothing or to more than any gauge reads. */
const isReading = (value: number): boolean => value === 0 || (Math.abs(value) > 1e-9 && Math.abs(value) < 1e12);

/**
 * What the two registers at a gauge's address could be, each way to read them once: which of the numbers is the one on the
 * gauge's display is for the person to see. A way that comes to no number is left out.
 * @param words the registers as they came, 0 to 65535
 * @param scale of the link
 */
export function couldBe(words: readonly [number, number], scale: number): readonly CouldBe[] {
  return numberTypes.flatMap((type) =>
    (type.endsWith('16') ? (['high-first'] as const) : (['high-first', 'low-first'] as const)).flatMap((order) => {
      const value = numberIn(words, { type, order }) * scale;
      return isReading(value) ? [{ type, order, value }] : [];
    }),
  );
}
