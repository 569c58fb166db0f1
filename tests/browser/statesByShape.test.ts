import type { Browser, Page } from 'playwright';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Palette, palettes } from '../../src/shared/presentation/drawing/inks.ts';
import { type State, stateMark } from '../../src/shared/presentation/drawing/states.ts';
import { sceneToSvg } from '../../src/shared/presentation/drawing/svg.ts';
import { launchBrowser } from '../support/browser.ts';

/** The smallest a state's mark is drawn on a screen, and the room its strokes need beyond that, in pixels. */
const [least_px, room_px] = [14, 20];
const states: readonly State[] = ['within', 'outside', 'too-close', 'not-measured', 'stale', 'overridden'];

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launchBrowser();
  page = await browser.newPage({ viewport: { width: room_px, height: room_px } });
});
afterAll(() => browser.close());

/** Every ink as black on white: what is left is the shape. */
const shapesOnly = Object.fromEntries(
  Object.keys(palettes.light).map((ink) => [ink, ink === 'ground' || ink === 'surface' ? '#ffffff' : '#000000']),
) as Palette;

/** How dark each pixel of a mark is, 0 white to 1 black. */
async function darkness(state: State): Promise<readonly number[]> {
  const at = { x: room_px / 2, y: room_px / 2 };
  const scene = {
    width: room_px,
    height: room_px,
    elements: stateMark(state, at, least_px),
    title: '',
    description: '',
  };
  await page.setContent(
    `<style>body{margin:0}svg{display:block;width:${room_px}px}</style>${sceneToSvg(scene, shapesOnly)}`,
  );
  const { data } = PNG.sync.read(await page.screenshot());
  return Array.from({ length: room_px * room_px }, (_, pixel) => 1 - (data[pixel * 4] ?? 255) / 255);
}

it('tells every state from every other by its shape alone, as small as it is ever drawn', async () => {
  const drawn = new Map<State, readonly number[]>();
  for (const state of states) drawn.set(state, await darkness(state));
  const alike = states.flatMap((one, index) =>
    states.slice(index + 1).flatMap((other) => {
      const [a, b] = [drawn.get(one) ?? [], drawn.get(other) ?? []];
      const ink = Math.max(sum(a), sum(b));
      const apart = sum(a.map((dark, pixel) => Math.abs(dark - (b[pixel] ?? 0)))) / ink;
      // Own choice: a ninth of the mark's ink is what the notch of an overridden disc takes out of it.
      return apart >= 0.11 ? [] : [`${one} and ${other}: ${apart.toFixed(2)}`];
    }),
  );
  expect(alike).toEqual([]);
});

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
