import { describe, expect, it } from 'vitest';
import { type Ink, palettes, type Theme } from '../../../../../src/shared/presentation/drawing/inks.ts';
import { contrast, difference, type Vision } from '../../../../support/drawings/colour.ts';

const themes: readonly Theme[] = ['light', 'dark', 'print'];
const states: readonly Ink[] = ['within', 'outside', 'too-close', 'not-measured', 'overridden'];

describe('colour arithmetic', () => {
  it('gives the contrast of black on white as 21 (WCAG 2.2) and of a colour on itself as 1', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrast('#336699', '#336699')).toBe(1);
  });

  it('leaves grey grey for everybody, because the simulations keep the neutral axis', () => {
    for (const vision of ['protanopia', 'deuteranopia', 'tritanopia'] as const) {
      expect(difference('#808080', '#ffffff', vision)).toBeCloseTo(difference('#808080', '#ffffff', 'usual'), 1);
    }
  });

  it('shows a red and a green that only differ in hue as nearly one colour to a deuteranope', () => {
    expect(difference('#a03c3c', '#5a5a2a', 'usual')).toBeGreaterThan(25);
    expect(difference('#a03c3c', '#5a5a2a', 'deuteranopia')).toBeLessThan(
      difference('#a03c3c', '#5a5a2a', 'usual') / 2,
    );
  });
});

describe.each(themes)('the inks of %s', (theme) => {
  const palette = palettes[theme];
  const words: readonly Ink[] = ['text', 'quiet', 'accent', ...states];
  const graphics: readonly Ink[] = ['line', 'mark', 'mark-found', 'plan', 'target', ...words];

  it.each(words)('writes %s legibly on ground and surface (WCAG AA, 4.5)', (ink) => {
    expect(contrast(palette[ink], palette.ground)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette[ink], palette.surface)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(graphics)('draws %s visibly on ground, band and metal (WCAG 1.4.11, 3)', (ink) => {
    for (const under of ['ground', 'band', 'metal'] as const) {
      expect(contrast(palette[ink], palette[under])).toBeGreaterThanOrEqual(3);
    }
  });

  it('writes scale values on the band legibly, and words on the accent', () => {
    expect(contrast(palette.quiet, palette.band)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette['on-accent'], palette['accent-fill'])).toBeGreaterThanOrEqual(4.5);
  });

  // 12 is our own bar: four times what is just noticed side by side, for marks that lie apart. Shapes differ too.
  it.each<Vision>(['usual', 'protanopia', 'deuteranopia', 'tritanopia'])('keeps the states apart for %s', (vision) => {
    for (const [index, a] of states.entries()) {
      for (const b of states.slice(index + 1)) {
        expect(difference(palette[a], palette[b], vision), `${a} and ${b}`).toBeGreaterThanOrEqual(12);
      }
    }
  });

  it('keeps the accent apart from every state for usual vision', () => {
    for (const state of states) {
      expect(difference(palette.accent, palette[state], 'usual'), state).toBeGreaterThanOrEqual(25);
    }
  });
});
