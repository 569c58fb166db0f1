import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it, vi } from 'vitest';
import { Drawing } from '../../../../src/renderer/instruments/Drawing.tsx';
import { flanksScene } from '../../../../src/shared/presentation/drawing/flanks.ts';
import { ringScene } from '../../../../src/shared/presentation/drawing/ring.ts';
import { inkVariable, svgNodes } from '../../../../src/shared/presentation/drawing/svg.ts';
import { backlashRing, firstTrialFlanks } from '../../../support/drawings/samples.ts';

const shown = (scene: Parameters<typeof svgNodes>[0]): string =>
  renderToStaticMarkup(createElement(Drawing, { scene }));

describe('a drawing on screen', () => {
  it('is a picture with a name and a description', () => {
    const markup = shown(ringScene(backlashRing));
    const title = /aria-labelledby="([^"]+)"/u.exec(markup)?.[1] ?? 'missing';
    expect(markup).toContain('role="img"');
    expect(markup).toContain(`<title id="${title}">Backlash around the ring gear</title>`);
    expect(markup).toContain('Station 4: 0.331 mm ± 0.008 mm, outside.');
  });

  it('draws every element of the scene in the theme’s inks, without React complaining', () => {
    const complaint = vi.spyOn(console, 'error');
    const scene = flanksScene(firstTrialFlanks);
    const markup = shown(scene);
    const drawn = [...markup.matchAll(/<(path|circle|text|g)\b/gu)].map((match) => match[1]);
    expect(drawn).toEqual(svgNodes(scene, inkVariable).map(({ tag }) => tag));
    expect(markup).toContain('fill="var(--ink-mark)"');
    expect(markup).toContain('stroke-dasharray="7 5"');
    expect(complaint).not.toHaveBeenCalled();
    complaint.mockRestore();
  });

  it('keeps quiet when it has no title', () => {
    const markup = shown({ ...ringScene(backlashRing), title: '', description: '' });
    expect(markup).toContain('aria-hidden="true"');
    expect(markup).not.toMatch(/role=|<title|<desc/u);
  });
});
