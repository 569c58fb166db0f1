import type { Page } from 'playwright';
import { PNG } from 'pngjs';

/** What can be counted in a picture of a screen. */
export interface Measured {
  /** Share of the stage's cells of 16 px in which nothing is drawn. */
  readonly blank: number;
  /** Heights of digits and capitals in minutes of arc at 3 m, for what is to be read from the gear. */
  readonly far: Readonly<Record<string, number>>;
}

/** Inter's digits and capitals are this much of its size (cap height 1490 of 2048 units). */
const capShare = 0.727;
/** The longer side of a ten-inch panel of 16 to 10, in mm: 10 in × 16 ÷ √(16² + 10²). */
const longerSide_mm = 215.4;
const away_mm = 3000;

/** What is read from the gear, by where it stands in the page. */
const farthest = {
  live: '.readout .live__digits',
  station: '.rocks__station',
  rocks: '.rocks__block',
  value: '.rocks__value, .verdict__number',
  verdict: '.rocks__words:not(.rocks__words--how), .verdict__word',
} as const;

/** Measures a page and the picture just taken of it. */
export async function measured(page: Page, picture: Buffer): Promise<Measured> {
  const sizes = await page.evaluate(
    ({ wanted, capShare }) => {
      const stage = document.querySelector('.stage__room')?.getBoundingClientRect();
      const far = Object.entries(wanted).flatMap(([name, selector]) => {
        const element = document.querySelector(selector);
        if (element === null) return [];
        // A block has no letters: it is as high as it is.
        const height = element.textContent === '' ? element.getBoundingClientRect().height : undefined;
        return [[name, height ?? Number.parseFloat(getComputedStyle(element).fontSize) * capShare] as const];
      });
      const box =
        stage === undefined ? undefined : { x: stage.x, y: stage.y, width: stage.width, height: stage.height };
      return { box, far };
    },
    { wanted: farthest, capShare },
  );
  const { width, height } = page.viewportSize() ?? { width: 1, height: 1 };
  const pixel_mm = longerSide_mm / Math.max(width, height);
  const minutes = (height_px: number): number => (Math.atan((height_px * pixel_mm) / away_mm) * 180 * 60) / Math.PI;
  return {
    blank: sizes.box === undefined ? 0 : blankShare(PNG.sync.read(picture), sizes.box),
    far: Object.fromEntries(sizes.far.map(([name, height_px]) => [name, minutes(height_px)])),
  };
}

const cell_px = 16;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The share of whole cells inside a box whose pixels are all of one colour. */
export function blankShare({ width, data }: Pick<PNG, 'width' | 'data'>, box: Box): number {
  const [across, down] = [Math.floor(box.width / cell_px), Math.floor(box.height / cell_px)];
  const [left, top] = [Math.ceil(box.x), Math.ceil(box.y)];
  const colour = (x: number, y: number): number => data.readUInt32BE((y * width + x) * 4);
  const isBlank = (x: number, y: number): boolean => {
    const first = colour(x, y);
    for (let pixel = 1; pixel < cell_px * cell_px; pixel += 1)
      if (colour(x + (pixel % cell_px), y + Math.floor(pixel / cell_px)) !== first) return false;
    return true;
  };
  let blank = 0;
  for (let row = 0; row < down; row += 1)
    for (let column = 0; column < across; column += 1)
      if (isBlank(left + column * cell_px, top + row * cell_px)) blank += 1;
  return blank / Math.max(1, across * down);
}
