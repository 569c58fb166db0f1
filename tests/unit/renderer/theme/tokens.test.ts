import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { palettes, type Theme } from '../../../../src/shared/presentation/drawing/inks.ts';

const renderer = join(import.meta.dirname, '..', '..', '..', '..', 'src', 'renderer');
const withoutRemarks = (text: string): string => text.replaceAll(/\/\*[\s\S]*?\*\//gu, '');
const css = withoutRemarks(readFileSync(join(renderer, 'theme', 'tokens.css'), 'utf8'));

/** Every style sheet but that of the tokens, by its name. */
const sheets = readdirSync(renderer, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.css') && !file.endsWith('tokens.css'))
  .map((file) => ({ file, text: withoutRemarks(readFileSync(join(renderer, file), 'utf8')) }));

const declarations = sheets.flatMap(({ file, text }) =>
  [...text.matchAll(/([\w-]+): ([^;{}]+);/gu)].map(([whole, property = '', value = '']) => ({
    where: `${file}: ${whole}`,
    property,
    value,
  })),
);
const wrong = (of: typeof declarations): readonly string[] => of.map(({ where }) => where);

/** The inks set in every rule of the style sheet, in order. */
const inks = [...css.matchAll(/\{([^{}]*)\}/gu)]
  .map((match) =>
    Object.fromEntries(
      [...(match[1] ?? '').matchAll(/--ink-([\w-]+): (#[0-9a-f]{6});/gu)].map(([, ink = '', colour = '']) => [
        ink,
        colour,
      ]),
    ),
  )
  .filter((set) => Object.keys(set).length > 0);

describe('the theme', () => {
  // Light is the page's own, dark stands twice (as the machine is set, as chosen here), print comes last.
  it('has the inks of the drawings, all of them and no others', () => {
    const themes: readonly Theme[] = ['light', 'dark', 'dark', 'print'];
    expect(inks).toEqual(themes.map((theme) => palettes[theme]));
  });

  it('keeps nothing that no sheet uses', () => {
    const names = new Set([...css.matchAll(/(--(?!ink-)[\w-]+):/gu)].map(([, name = '']) => name));
    const used = sheets.map(({ text }) => text).join('') + css;
    expect([...names].filter((name) => !used.includes(`var(${name})`))).toEqual([]);
  });

  it('has seven sizes of letters, seven steps of room and seven measures of pictures and columns', () => {
    expect(new Set(css.match(/--type-\w+(?=:)/gu)).size).toBe(7);
    expect(new Set(css.match(/--s\d+(?=:)/gu)).size).toBe(7);
    expect(new Set(css.match(/--m\d+(?=:)/gu)).size).toBe(7);
  });
});

/** A length written out; 0, shares and what is reckoned from tokens are none. */
const bare = /(?<![\w.-])-?\d*\.?\d+(?:px|rem|em|pt)\b/u;

describe('every sheet', () => {
  it('takes letters, room and lines from the tokens', () => {
    const ruled =
      /^(?:font|font-size|line-height|gap|row-gap|column-gap|(?:padding|margin|border|outline)(?:-.*)?|box-shadow)$/u;
    const own = declarations.filter(({ property, value }) => ruled.test(property) && bare.test(value));
    expect(wrong(own)).toEqual([]);
  });

  it('gives letters no height by a number of its own', () => {
    const own = declarations.filter(({ property, value }) => property === 'line-height' && !value.startsWith('var('));
    expect(wrong(own)).toEqual([]);
  });

  /**
   * Hairlines, marks, pictures, columns: every length has a token. Only where a window or a stage is asked how large it is
   * no token can stand (CSS takes no custom property there), and windows are asked at the few sizes below. A room that is
   * so many letters wide is reckoned in them (em, ch).
   */
  it('writes out no length but in letters', () => {
    const own = declarations.filter(({ value }) => /(?<![\w.-])-?\d*\.?\d+(?:px|rem|pt|mm|cm|in)\b/u.test(value));
    expect(wrong(own)).toEqual([]);
  });

  it('asks windows at the sizes the bench is drawn for and nowhere else', () => {
    const asked = sheets.flatMap(({ file, text }) =>
      [...text.matchAll(/@media ([^{]+)\{/gu)].flatMap(([, question = '']) =>
        [...question.matchAll(/(width|height): (\d+)px/gu)].map(([, side = '', px = '']) => ({
          file,
          at: `${side} ${px}`,
        })),
      ),
    );
    const sizes = new Set([
      // Narrower than any bench; a panel stood up; 1024 lying; wider than a laptop; 1920.
      ...[720, 721, 900, 901, 960, 1100, 1559, 1560, 1900].map((px) => `width ${px}`),
      // 600 and 150 % of 800; a little more; a panel stood up.
      ...[640, 641, 700, 899, 900].map((px) => `height ${px}`),
    ]);
    expect(asked.length).toBeGreaterThan(50);
    expect(asked.filter(({ at }) => !sizes.has(at))).toEqual([]);
  });

  it('has no colour of its own but on a photo, where those of the theme mean nothing', () => {
    const own = declarations.filter(
      ({ where, property, value }) =>
        /#[0-9a-f]{3,8}\b|\brgb\(/iu.test(value) && !where.includes('photo.css') && property !== 'box-shadow',
    );
    // The veil behind a sheet is black on every theme.
    expect(wrong(own)).toEqual(['screens/bench/settings/settings.css: background: rgb(0 0 0 / 45%);']);
  });

  it('shows a moving thing only to whoever bears it', () => {
    const base = sheets.find(({ file }) => file.endsWith('base.css'))?.text ?? '';
    expect(base).toMatch(/prefers-reduced-motion: reduce\) \{[^}]*\*[^}]*animation: none/u);
  });
});
