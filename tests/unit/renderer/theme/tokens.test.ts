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

  it('has seven sizes of letters and seven steps of room', () => {
    expect(new Set(css.match(/--type-\w+(?=:)/gu)).size).toBe(7);
    expect(new Set(css.match(/--s\d+(?=:)/gu)).size).toBe(7);
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
   * What may be written out: how large a picture, a column or a room is at least or at most. Such a measure belongs to one
   * place and to no scale, but it keeps to the grid of 4 px that the steps of room lie on. All else has a token.
   */
  it('writes out only how large a room is, in steps of 4 px', () => {
    const rooms = /^(?:(?:min-|max-)?(?:width|height|block-size)|flex(?:-basis)?|grid-template(?:-columns|-rows)?)$/u;
    const own = declarations.filter(({ where, property, value }) => {
      // What only screen readers see is one pixel; a cue's stripes are drawn, not laid out.
      if (where.startsWith('theme/base.css: width: 1px') || where.startsWith('theme/base.css: height: 1px'))
        return false;
      if (property === 'background' && where.startsWith('cues/')) return false;
      const lengths = [...value.matchAll(/(?<![\w.-])(\d*\.?\d+)px\b/gu)].map(([, length]) => Number(length));
      return lengths.length > 0 && !(rooms.test(property) && lengths.every((length) => length % 4 === 0));
    });
    expect(wrong(own)).toEqual([]);
  });

  it('takes what can be pressed from the tokens too: nothing else is 40 to 60 px', () => {
    const sized = /^(?:min-)?(?:width|height)$/u;
    const own = declarations.filter(({ property, value }) => {
      const size = /^(\d+(?:\.\d+)?)px$/u.exec(value)?.[1];
      return sized.test(property) && size !== undefined && Number(size) >= 40 && Number(size) <= 60;
    });
    expect(wrong(own)).toEqual([]);
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
