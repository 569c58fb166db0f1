import { insideOf, type QuantityTyped } from '../../basics/recorded.ts';
import type { ShimDrawer, ShimSize, ShimUse } from '../records/drawer.ts';

/** A kit as it is sold: from one thickness to another in even steps, so many of each; all in the unit of `from`. */
export interface Kit {
  readonly use: ShimUse;
  readonly from: QuantityTyped;
  readonly to: QuantityTyped;
  readonly step: QuantityTyped;
  readonly each: number;
}

/** More sizes than any kit has: above it the step was mistyped (own choice). */
export const mostSizes = 200;

/** How many sizes a kit has; 0 where its figures make none. */
export function sizesIn({ from, to, step }: Pick<Kit, 'from' | 'to' | 'step'>): number {
  const [least, most, by] = [from, to, step].map(insideOf);
  if (least === undefined || most === undefined || by === undefined || !(by > 0) || least > most) return 0;
  // Half a millionth of a step: 0.50 is reached from 0.05 by nine steps of 0.05, whatever binary makes of them.
  return Math.floor((most - least) / by + 1e-6) + 1;
}

/** The drawer with a kit put into it: a size that is there already gets so many more. */
export function withKit(drawer: ShimDrawer, kit: Kit): ShimDrawer {
  const { use, from, step, each } = kit;
  const inFromUnit = from.unit === step.unit ? step.value : (insideOf(step) / insideOf(from)) * from.value;
  const sizes = Array.from({ length: sizesIn(kit) }, (_, n): ShimSize => {
    // Sixteen digits of a sum are no thickness: as many decimals as were typed, and two to spare.
    const value = Number((from.value + n * inFromUnit).toPrecision(8));
    return { use, thickness: { value, unit: from.unit }, count: each };
  });
  return { sizes: thickestFirst(sizes.reduce(added, drawer.sizes)) };
}

/** Thinner than any two sizes that are sold differ by (mm). */
const same = 0.0004;

function added(sizes: readonly ShimSize[], size: ShimSize): readonly ShimSize[] {
  const at = sizes.findIndex(
    (one) => one.use === size.use && Math.abs(insideOf(one.thickness) - insideOf(size.thickness)) < same,
  );
  const found = sizes[at];
  return found === undefined
    ? [...sizes, size]
    : sizes.with(at, { ...found, count: Math.min(999, found.count + size.count) });
}

const thickestFirst = (sizes: readonly ShimSize[]): ShimSize[] =>
  sizes.toSorted((a, b) => insideOf(b.thickness) - insideOf(a.thickness));
