import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { helpPicture, helpPictures } from '../../../../../src/shared/presentation/drawing/help/pictures.ts';
import { shopCautions } from '../../../../../src/shared/presentation/words/cautions.ts';
import { helpTopics } from '../../../../../src/shared/presentation/words/help.ts';

const page = readFileSync(join(import.meta.dirname, '..', '..', '..', '..', '..', 'docs', 'cautions.md'), 'utf8');

describe('help at hand', () => {
  it('draws every picture inside its own frame', () => {
    for (const name of helpPictures) {
      const { width, height, elements, description } = helpPicture(name);
      expect(description.length).toBeGreaterThan(20);
      const points = elements.flatMap((element) => ('x' in element ? [[element.x, element.y] as const] : []));
      expect(points.length).toBeGreaterThan(0);
      for (const [x, y] of points) {
        expect(x >= 0 && x <= width).toBe(true);
        expect(y >= 0 && y <= height).toBe(true);
      }
    }
  });

  it('says how each thing is taken in whole sentences, and never calls anything safe', () => {
    const words = [...Object.values(helpTopics).flatMap(({ steps }) => steps), ...shopCautions.map((one) => one.words)];
    for (const sentence of words) expect(sentence).toMatch(/[.]$/u);
    expect(words.join(' ')).not.toMatch(/\bsafe/iu);
  });

  it('has the cautions of the page about them, each of the things that hurt most by name', () => {
    const onPage = [...page.matchAll(/\*\*(.+?)\.\*\*/gu)].map(([, about]) => about);
    for (const about of ['New teeth', 'Weight', 'Limited slip, locker or spool', 'Ring gear', 'Caps and adjusters']) {
      expect(onPage).toContain(about);
      expect(shopCautions.map((one) => one.about)).toContain(about);
    }
  });
});
