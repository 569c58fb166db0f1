import type { Page } from 'playwright';
import type { Look } from '../browser.ts';

/** A look of the bench: its window, its theme, and what is done to its colours. */
export interface PictureLook extends Look {
  readonly eyes?: keyof typeof eyes;
}

/**
 * How others see the colours, as rows of a matrix over linear red, green and blue. Grey: relative luminance of WCAG 2.2.
 * No red cones, no green cones: Machado, Oliveira and Fernandes 2009 at full severity, recalled from memory.
 */
const eyes = {
  grey: [0.2126, 0.7152, 0.0722, 0.2126, 0.7152, 0.0722, 0.2126, 0.7152, 0.0722],
  protan: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  deutan: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
} as const;

/** Lays such eyes over the page. */
export const seeWith = (page: Page, whose: keyof typeof eyes): Promise<void> =>
  page.evaluate((rows) => {
    const values = [0, 3, 6].map((at) => `${rows.slice(at, at + 3).join(' ')} 0 0`).join(' ');
    const filter = `<svg xmlns="http://www.w3.org/2000/svg"><filter id="eyes"><feColorMatrix values="${values} 0 0 0 1 0"/></filter></svg>`;
    const holder = document.createElement('div');
    holder.style.cssText = 'position:absolute;width:0;height:0;overflow:hidden';
    holder.innerHTML = filter;
    document.body.append(holder);
    document.documentElement.style.setProperty('filter', 'url(#eyes)');
  }, eyes[whose]);

/** The windows the bench is drawn for; `zoomed` is 1280 × 800 at 150 %. */
const sizes = {
  tall: { width: 800, height: 1280 },
  low: { width: 1024, height: 600 },
  zoomed: { width: 853, height: 533 },
  wide: { width: 1280, height: 800 },
  large: { width: 1920, height: 1080 },
} as const;

const themes = { light: {}, dark: { theme: 'dark' }, grey: { eyes: 'grey' } } as const;

/** Every size in every theme, by names such as `wide-dark`, and one size as colour-blind eyes see it. */
export const looks: Readonly<Record<string, PictureLook>> = {
  ...Object.fromEntries(
    Object.entries(sizes).flatMap(([size, window]) =>
      Object.entries(themes).map(([theme, how]) => [
        `${size}-${theme}`,
        { ...window, theme: 'light', ...how } as const,
      ]),
    ),
  ),
  'wide-protan': { ...sizes.wide, theme: 'light', eyes: 'protan' },
  'wide-deutan': { ...sizes.wide, theme: 'light', eyes: 'deutan' },
};

/** The smaller side of a target: on the windows of touch panels what a gloved finger needs, elsewhere a finger's. */
export const least_px = (look: string): number => (/^(?:tall|low)-/u.test(look) ? 48 : 44);
