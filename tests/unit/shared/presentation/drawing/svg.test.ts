import { describe, expect, it } from 'vitest';
import { inkNames, palettes } from '../../../../../src/shared/presentation/drawing/inks.ts';
import { circle, group, path, type Scene, text } from '../../../../../src/shared/presentation/drawing/scene.ts';
import { inkVariable, sceneToSvg, svgNodes } from '../../../../../src/shared/presentation/drawing/svg.ts';

const scene = (elements: Scene['elements']): Scene => ({
  width: 100,
  height: 50,
  elements,
  title: 'Ring & "flank"',
  description: '0.2 < 0.3',
});

describe('a scene as SVG', () => {
  it('carries its words, escaped, where a screen reader looks for them', () => {
    const svg = sceneToSvg(scene([text('a<b', { x: 1, y: 2 }, 10)]), palettes.print);
    expect(svg).toContain('<title>Ring &amp; &quot;flank&quot;</title><desc>0.2 &lt; 0.3</desc>');
    expect(svg).toContain('>a&lt;b</text>');
    expect(svg).toContain('role="img"');
  });

  it('turns inks into the palette’s colours and leaves none behind', () => {
    const all = scene(inkNames.map((ink) => circle({ x: 1, y: 1 }, 1, { fill: ink, stroke: ink })));
    const colours = [...sceneToSvg(all, palettes.dark).matchAll(/(?:fill|stroke)="([^"]+)"/gu)].map(
      (match) => match[1],
    );
    expect(colours).toEqual(inkNames.flatMap((ink) => [palettes.dark[ink], palettes.dark[ink]]));
  });

  it('writes style only where there is some', () => {
    const [plain, full] = svgNodes(
      scene([
        path('M0 0L1 1', { stroke: 'line' }),
        path('M0 0L1 1', { stroke: 'line', width: 2, dash: [4, 1.5], cap: 'round', opacity: 0.5 }),
      ]),
      inkVariable,
    );
    expect(plain?.attributes).toEqual({
      d: 'M0 0L1 1',
      fill: 'none',
      stroke: 'var(--ink-line)',
      'stroke-width': '1',
      'stroke-linejoin': 'round',
    });
    expect(full?.attributes).toMatchObject({
      'stroke-width': '2',
      'stroke-linecap': 'round',
      'stroke-dasharray': '4 1.5',
      opacity: '0.5',
    });
  });

  it('moves, then turns a group', () => {
    const place = { translate: { x: 5, y: 6 }, rotate_deg: 30 };
    const [node] = svgNodes(scene([group([circle({ x: 0, y: 0 }, 1, { fill: 'text' })], place)]), inkVariable);
    expect(node).toMatchObject({ tag: 'g', attributes: { transform: 'translate(5 6)rotate(30)' } });
    expect(node?.children).toHaveLength(1);
  });
});
