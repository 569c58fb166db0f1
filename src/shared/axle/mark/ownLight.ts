import { Field } from '../../basics/field.ts';
import type { Chosen, Colours } from './paint.ts';

/** Half the window over which light is taken as even: columns, rows. About a tenth of the face, an eighth of the height. */
const [wide, tall] = [18, 9];
/** Cells' weight with which light is held at what the slow surface says. */
const held = 60;
/** L* plus this, a* and b* shrink alike in a shadow: all three follow the cube root of the light (CIE 15). */
export const darkest = 16;

/** Colours in a light that many times as strong, as the eye sees it: 1 changes nothing. */
export const inLight = ([L, a, b]: Colours, light: Field): Colours => [
  L.map((x, cell) => (x + darkest) * light.cell(cell) - darkest),
  a.map((x, cell) => x * light.cell(cell)),
  b.map((x, cell) => x * light.cell(cell)),
];

/**
 * How much lighter or darker the flank is near every cell than its paints say: a shadow with an edge is no quadric. It is
 * learnt from cells that are surely one or the other, each held against its own paint, so that a mark is no shadow.
 */
export function ownLight([L]: Colours, kinds: readonly { readonly chosen: Chosen; readonly paint: Colours }[]): Field {
  const more = new Field(L.columns, L.rows);
  const weight = new Field(L.columns, L.rows);
  for (const { chosen, paint } of kinds) {
    chosen.forEach((one, cell) => {
      if (one !== 1) return;
      more.values[cell] = (L.cell(cell) + darkest) / Math.max(4, paint[0].cell(cell) + darkest) - 1;
      weight.values[cell] = 1;
    });
  }
  const [sum, count] = [windowSum(more), windowSum(weight)];
  return sum.map((x, cell) => Math.min(1, Math.max(0.5, 1 + x / (count.cell(cell) + held))));
}

/** Sum over the window round every cell, first along the rows, then across them. */
const windowSum = (field: Field): Field => summed(summed(field, 1, wide), field.columns, tall);

function summed(field: Field, step: number, reach: number): Field {
  const { columns, rows } = field;
  const [length, lines, next] = step === 1 ? [columns, rows, columns] : [rows, columns, 1];
  const out = new Field(columns, rows);
  for (let line = 0; line < lines; line += 1) {
    const at = (n: number) => line * next + n * step;
    let sum = 0;
    for (let n = 0; n < Math.min(reach, length); n += 1) sum += field.cell(at(n));
    for (let n = 0; n < length; n += 1) {
      if (n + reach < length) sum += field.cell(at(n + reach));
      if (n - reach - 1 >= 0) sum -= field.cell(at(n - reach - 1));
      out.values[at(n)] = sum;
    }
  }
  return out;
}
