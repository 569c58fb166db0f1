import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Palette, palettes, type Theme } from '../../../../src/shared/presentation/drawing/inks.ts';

const css = readFileSync(new URL('../../../../src/renderer/theme/tokens.css', import.meta.url), 'utf8');

/** The inks set in every rule of the style sheet, in order. */
const rules = [...css.matchAll(/\{([^{}]*)\}/gu)]
  .map((match) =>
    Object.fromEntries(
      [...(match[1] ?? '').matchAll(/--ink-([\w-]+): (#[0-9a-f]{6});/gu)].map(([, ink = '', colour = '']) => [
        ink,
        colour,
      ]),
    ),
  )
  .filter((inks) => Object.keys(inks).length > 0) as unknown as readonly Palette[];

describe('the theme', () => {
  // Light is the page's own, dark stands twice (as the machine is set, as chosen here), print comes last.
  it('has the inks of the drawings, all of them and no others', () => {
    const themes: readonly Theme[] = ['light', 'dark', 'dark', 'print'];
    expect(rules).toEqual(themes.map((theme) => palettes[theme]));
  });

  it('keeps targets and far digits as large as the house rules ask', () => {
    expect(css).toContain('--target: 44px;');
    expect(css).toContain('--digits-far: 4rem;');
    expect(css).toMatch(/--digits-live: clamp\(7\.5rem,/u);
  });

  it('stops motion for whoever asked for that', () => {
    expect(css).toMatch(/prefers-reduced-motion: reduce\) \{\s*:root \{\s*--motion: 0ms;/u);
  });
});
