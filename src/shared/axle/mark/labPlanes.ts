import { labOf } from './labColour.ts';
import type { FlankRaster } from './straighten.ts';

/** A raster in CIE L*a*b*. */
export interface LabPlanes {
  readonly L: Float32Array;
  readonly a: Float32Array;
  readonly b: Float32Array;
}

/** Every cell's colour as it is seen. */
export function labPlanes({ red, green, blue }: FlankRaster): LabPlanes {
  const planes = {
    L: new Float32Array(red.length),
    a: new Float32Array(red.length),
    b: new Float32Array(red.length),
  };
  for (let cell = 0; cell < red.length; cell += 1) {
    const [L, a, b] = labOf(red[cell] ?? 0, green[cell] ?? 0, blue[cell] ?? 0);
    planes.L[cell] = L;
    planes.a[cell] = a;
    planes.b[cell] = b;
  }
  return planes;
}
