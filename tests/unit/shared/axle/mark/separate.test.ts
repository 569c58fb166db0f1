import { describe, expect, test } from 'vitest';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { separate, type Separation } from '../../../../../src/shared/axle/mark/separate.ts';
import type { FlankRaster } from '../../../../../src/shared/axle/mark/straighten.ts';

type Light = readonly [number, number, number];
const [columns, rows] = [200, 72];

/** A flank of two colours: inside an ellipse the metal, outside the compound, in a light that may change, with noise. */
function painted(compound: Light, metal: Light, more: { light?: At; glare?: At; mark?: Inside } = {}): FlankRaster {
  const random = seeded(11);
  const { light = () => 1, glare = () => 0, mark = ellipse } = more;
  const plane = (channel: 0 | 1 | 2) =>
    Float32Array.from({ length: columns * rows }, (_, cell) => {
      const [x, y] = placeOf(cell);
      const colour = (mark(x, y) ? metal : compound)[channel];
      return Math.min(1, Math.max(0, colour * light(x, y) * (1 + random.normal(0, 0.03)) + glare(x, y)));
    });
  const [red, green, blue] = [plane(0), plane(1), plane(2)];
  return { columns, rows, red, green, blue, blind: new Uint8Array(columns * rows) };
}

type At = (x: number, y: number) => number;
type Inside = (x: number, y: number) => boolean;
const placeOf = (cell: number): readonly [number, number] => [
  ((cell % columns) + 0.5) / columns - 0.5,
  (Math.floor(cell / columns) + 0.5) / rows - 0.5,
];
const ellipse: Inside = (x, y) => Math.hypot((x - 0.1) / 0.22, (y + 0.05) / 0.27) < 1;

/** Share of cells on the right side of a half. */
function right(separation: Separation | undefined, mark: Inside = ellipse): number {
  if (separation === undefined) return 0;
  let sum = 0;
  separation.bareness.values.forEach((value, cell) => {
    if (value > 0.5 === mark(...placeOf(cell))) sum += 1;
  });
  return sum / (columns * rows);
}

const darkMetal: Light = [0.08, 0.078, 0.075];
const brightMetal: Light = [0.42, 0.41, 0.39];
const compounds: readonly (readonly [string, Light])[] = [
  ['white', [0.62, 0.61, 0.58]],
  ['cream', [0.58, 0.52, 0.4]],
  ['yellow', [0.6, 0.44, 0.05]],
  ['orange', [0.6, 0.22, 0.03]],
  ['red', [0.42, 0.05, 0.04]],
  ['green', [0.06, 0.28, 0.1]],
  ['blue', [0.03, 0.08, 0.33]],
];

describe('compound told from metal', () => {
  test.each(compounds)('%s on dark and on bright metal', (_, compound) => {
    expect(right(separate(painted(compound, darkMetal)))).toBeGreaterThan(0.985);
    expect(right(separate(painted(compound, brightMetal)))).toBeGreaterThan(0.985);
  });

  test.each(compounds)('%s in a light that falls to a third from end to end', (_, compound) => {
    const light: At = (x) => 0.68 - 0.64 * x;
    expect(right(separate(painted(compound, darkMetal, { light })))).toBeGreaterThan(0.98);
  });

  test('white with a shadow over one end', () => {
    const light: At = (x) => (x < -0.3 ? 0.45 : 1);
    expect(right(separate(painted([0.62, 0.61, 0.58], darkMetal, { light })))).toBeGreaterThan(0.97);
  });

  test('a coloured compound under a spot of mirrored light', () => {
    const glare: At = (x, y) => 0.5 * Math.exp(-((x + 0.3) ** 2) / 0.003 - (y - 0.2) ** 2 / 0.02);
    expect(right(separate(painted([0.42, 0.05, 0.04], darkMetal, { glare })))).toBeGreaterThan(0.98);
    expect(right(separate(painted([0.03, 0.08, 0.33], brightMetal, { glare })))).toBeGreaterThan(0.98);
  });

  test('a mark that covers most of the face is the mark and not the compound', () => {
    const mark: Inside = (x, y) => Math.abs(x) < 0.42 && Math.abs(y) < 0.34;
    expect(right(separate(painted([0.6, 0.44, 0.05], darkMetal, { mark })), mark)).toBeGreaterThan(0.98);
    expect(right(separate(painted([0.62, 0.61, 0.58], darkMetal, { mark })), mark)).toBeGreaterThan(0.98);
  });

  test('compound alone explains itself badly by two heaps, a mark well', () => {
    const none = separate(painted([0.6, 0.44, 0.05], darkMetal, { mark: () => false }));
    expect(none?.explained ?? 0).toBeLessThan(0.8);
    expect(separate(painted([0.6, 0.44, 0.05], darkMetal))?.explained).toBeGreaterThan(0.85);
  });
});
