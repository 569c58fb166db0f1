import type { Field } from '../../basics/field.ts';
import { luminance } from './labColour.ts';
import type { FlankRaster } from './straighten.ts';

/**
 * The flank with white light taken off every cell until it is no brighter than the compound would be there: mirrored light
 * is white and only adds, so compound under it comes back to its own colour, and bare metal stays without one.
 * @param compound lightness L* of the compound at every cell
 */
export function withoutGlare(raster: FlankRaster, compound: Field): FlankRaster {
  const [red, green, blue] = [raster.red.slice(), raster.green.slice(), raster.blue.slice()];
  for (let cell = 0; cell < red.length; cell += 1) {
    const [r, g, b] = [red[cell] ?? 0, green[cell] ?? 0, blue[cell] ?? 0];
    const more = luminance(r, g, b) - lightOf(compound.cell(cell));
    if (more <= 0) continue;
    red[cell] = Math.max(0, r - more);
    green[cell] = Math.max(0, g - more);
    blue[cell] = Math.max(0, b - more);
  }
  return { ...raster, red, green, blue };
}

/** Luminance of a lightness (CIE 15), its dark straight part left out: nothing mirrored is that dark. */
const lightOf = (L: number): number => (Math.max(0, L + 16) / 116) ** 3;
