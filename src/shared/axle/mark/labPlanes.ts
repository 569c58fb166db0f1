import { Field } from '../../basics/field.ts';
import { labOf } from './labColour.ts';
import type { Colours } from './paint.ts';
import type { FlankRaster } from './straighten.ts';

/** Every cell's colour as it is seen. */
export function labPlanes({ columns, rows, red, green, blue }: FlankRaster): Colours {
  const planes = [new Float32Array(red.length), new Float32Array(red.length), new Float32Array(red.length)] as const;
  for (let cell = 0; cell < red.length; cell += 1) {
    const colour = labOf(red[cell] ?? 0, green[cell] ?? 0, blue[cell] ?? 0);
    for (const [n, plane] of planes.entries()) plane[cell] = colour[n] ?? 0;
  }
  return [
    new Field(columns, rows, planes[0]),
    new Field(columns, rows, planes[1]),
    new Field(columns, rows, planes[2]),
  ];
}
