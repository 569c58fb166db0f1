import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Mark } from '../../../../../src/shared/axle/mark/mark.ts';
import { flanksScene } from '../../../../../src/shared/presentation/drawing/flanks.ts';
import { palettes } from '../../../../../src/shared/presentation/drawing/inks.ts';
import { sceneToSvg } from '../../../../../src/shared/presentation/drawing/svg.ts';

const file = join(import.meta.dirname, '..', '..', '..', '..', '..', 'docs', 'pictures', 'flanks.svg');

/** A mark as it is wished for: clear of every edge, a little to the toe. An example, and no axle's. */
const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;
const example: Mark = {
  heel: -0.06,
  crown: 0.02,
  length: 0.5,
  height: 0.48,
  slant_deg: 0,
  edges: clear,
  U95: { heel: 0.05, crown: 0.05 },
};

it('the words toe, heel, crown and root are shown in the documents by a drawing of the product’s own', () => {
  const scene = flanksScene({
    drive: { flank: 'convex', seen: example },
    coast: { flank: 'concave', seen: example },
    cut: 'face-milled',
    turned: 'toe-left',
    size: { width: 960, height: 300, text: 15 },
  });
  const drawn = sceneToSvg(
    { ...scene, title: 'Two flanks of a ring-gear tooth, with an example of a mark on each' },
    palettes.light,
    { ground: true },
  );
  for (const word of ['toe', 'heel', 'crown', 'root']) expect(drawn).toContain(`>${word}<`);
  if (process.env['WRITE_PICTURE'] !== undefined) writeFileSync(file, drawn);
  expect(readFileSync(file, 'utf8'), 'drawn anew by WRITE_PICTURE=1 npm test -- docsPicture').toBe(drawn);
});
