import { z } from 'zod';
import { insideOf, lengthTypedSchema } from '../../basics/recorded.ts';
import { mm } from '../../basics/quantity.ts';
import type { DrawerSize } from '../../axle/drawer.ts';
import type { ShimPlace } from '../../axle/makeUp.ts';

/** What a shim fits: each use has a bore and an outside of its own. */
export const shimUses = ['pinion-depth', 'side', 'pinion-preload'] as const;
export type ShimUse = (typeof shimUses)[number];

export const useOf = (place: ShimPlace): ShimUse =>
  place === 'ring-side' || place === 'opposite-side' ? 'side' : place;

/** One size at hand, as measured, and how many of it there are. */
const shimSizeSchema = z.strictObject({
  use: z.enum(shimUses),
  thickness: lengthTypedSchema.refine((typed) => insideOf(typed) > 0 && insideOf(typed) <= 12, {
    error: 'a shim is thicker than nothing and at most 12 mm thick',
  }),
  count: z.int().min(0).max(999),
});
export type ShimSize = z.infer<typeof shimSizeSchema>;

/** The shims at hand. It is the shop's, not a build's. */
export const shimDrawerSchema = z.strictObject({ sizes: z.array(shimSizeSchema).max(600) });
export type ShimDrawer = z.infer<typeof shimDrawerSchema>;

/** The sizes for one use, as the search for a stack wants them. */
export const sizesFor = (drawer: ShimDrawer, use: ShimUse): readonly DrawerSize[] =>
  drawer.sizes
    .filter((size) => size.use === use && size.count > 0)
    .map(({ thickness, count }) => ({ thickness: mm(insideOf(thickness)), count }));

/** Thinner than any two sizes that are sold differ by (mm). */
const same = 0.0004;

/** The drawer after shims were taken out of it or put back: those not in it as a size of its own are entered. */
export function counted(drawer: ShimDrawer, use: ShimUse, shims: readonly number[], by: 1 | -1): ShimDrawer {
  return shims.reduce<ShimDrawer>(({ sizes }, shim) => {
    const at = sizes.findIndex((size) => size.use === use && Math.abs(insideOf(size.thickness) - shim) < same);
    const found = sizes[at];
    if (found !== undefined) return { sizes: sizes.with(at, { ...found, count: Math.max(0, found.count + by) }) };
    return by < 0 ? { sizes } : { sizes: [...sizes, { use, thickness: { value: shim, unit: 'mm' }, count: 1 }] };
  }, drawer);
}
