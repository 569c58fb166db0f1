import type { Look } from '../browser.ts';

/** A look of the bench: its window, its theme, and whether the colours are taken out. */
export interface PictureLook extends Look {
  readonly grey?: boolean;
}

/** The windows the bench is drawn for; `zoomed` is 1280 × 800 at 150 %. */
const sizes = {
  tall: { width: 800, height: 1280 },
  low: { width: 1024, height: 600 },
  zoomed: { width: 853, height: 533 },
  wide: { width: 1280, height: 800 },
  large: { width: 1920, height: 1080 },
} as const;

const themes = { light: {}, dark: { theme: 'dark' }, grey: { grey: true } } as const;

/** Every size in every theme, by names such as `wide-dark`. */
export const looks: Readonly<Record<string, PictureLook>> = Object.fromEntries(
  Object.entries(sizes).flatMap(([size, window]) =>
    Object.entries(themes).map(([theme, how]) => [`${size}-${theme}`, { ...window, theme: 'light', ...how } as const]),
  ),
);
