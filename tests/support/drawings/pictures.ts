/**
 * Draws every sample scene in each theme, in grey and small (as from three metres), so that a person can look at
 * them: `node tests/support/drawings/pictures.ts OUT_DIR`. It judges nothing; the eye does.
 */
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { delimiter, join, resolve } from 'node:path';
import { chromium } from 'playwright';
import { barScene } from '../../../src/shared/presentation/drawing/bars.ts';
import { flanksScene } from '../../../src/shared/presentation/drawing/flanks.ts';
import { palettes, type Theme } from '../../../src/shared/presentation/drawing/inks.ts';
import { ringScene } from '../../../src/shared/presentation/drawing/ring.ts';
import { type Scene, text } from '../../../src/shared/presentation/drawing/scene.ts';
import { type State, stateMark, stateWords } from '../../../src/shared/presentation/drawing/states.ts';
import { sceneToSvg } from '../../../src/shared/presentation/drawing/svg.ts';
import { traceScene } from '../../../src/shared/presentation/drawing/trace.ts';
import { unrolledScene } from '../../../src/shared/presentation/drawing/unrolled.ts';
import * as samples from './samples.ts';

const states: Scene = {
  width: 900,
  height: 60,
  title: 'States',
  description: 'Every state with its word',
  elements: (Object.keys(stateWords) as State[]).flatMap((state, index) => [
    ...stateMark(state, { x: 24 + index * 148, y: 30 }, 22),
    text(stateWords[state], { x: 44 + index * 148, y: 35 }, 14),
  ]),
};

const sheets: Readonly<Record<string, readonly Scene[]>> = {
  rings: [samples.backlashRing, samples.bothRing, samples.runoutRing, samples.inchLiveRing].map(ringScene),
  unrolled: [samples.backlashRing, samples.bothRing, samples.runoutRing].map((input) =>
    unrolledScene({ ...input, size: { width: 560, height: 190, text: 15 } }),
  ),
  flanks: [samples.firstTrialFlanks, samples.usedSetFlanks].map(flanksScene),
  traces: [
    states,
    traceScene(samples.rockingTrace),
    traceScene(samples.torqueTrace),
    barScene(samples.closeBar),
    barScene(samples.outsideBar),
  ],
};

/** The family's weights, embedded, so that the pictures show the digits the bench shows. */
function fontFaces(): string {
  const weights = { 400: 'Regular', 500: 'Medium', 600: 'SemiBold', 700: 'Bold' } as const;
  return Object.entries(weights)
    .map(([weight, name]) => {
      const file = `node_modules/@expo-google-fonts/inter/${weight}${name}/Inter_${weight}${name}.ttf`;
      const data = readFileSync(file).toString('base64');
      return `@font-face{font-family:Inter;font-weight:${weight};src:url(data:font/ttf;base64,${data})}`;
    })
    .join('');
}

function sheet(scenes: readonly Scene[], theme: Theme, look: 'full' | 'grey' | 'far'): string {
  const palette = palettes[theme];
  const style = { full: '', grey: 'filter:grayscale(1);', far: '' }[look];
  const zoom = look === 'far' ? 0.25 : 1;
  const drawings = scenes.map((scene) => `<div style="zoom:${zoom}">${sceneToSvg(scene, palette)}</div>`).join('');
  const body = `background:${palette.ground};${style}display:flex;flex-wrap:wrap;gap:16px;margin:0;padding:16px`;
  return `<style>${fontFaces()}</style><body style="${body}">${drawings}</body>`;
}

function installedChromium(): string | undefined {
  return (process.env['PATH'] ?? '')
    .split(delimiter)
    .flatMap((folder) => ['chromium', 'chromium-browser'].map((name) => join(folder, name)))
    .find(existsSync);
}

const folder = resolve(process.argv[2] ?? 'out/drawings');
mkdirSync(folder, { recursive: true });
const executablePath = installedChromium();
const browser = await chromium.launch({
  args: ['--no-sandbox'],
  ...(executablePath === undefined ? {} : { executablePath }),
});
const page = await browser.newPage({ viewport: { width: 1200, height: 400 } });
for (const [name, scenes] of Object.entries(sheets)) {
  for (const [theme, look] of [
    ['light', 'full'],
    ['dark', 'full'],
    ['print', 'full'],
    ['print', 'grey'],
    ['light', 'far'],
    ['dark', 'far'],
  ] as const) {
    await page.setViewportSize(look === 'far' ? { width: 340, height: 100 } : { width: 1200, height: 400 });
    await page.setContent(sheet(scenes, theme, look));
    await page.evaluate(() => document.fonts.ready);
    await page.screenshot({ path: join(folder, `${name}-${theme}-${look}.png`), fullPage: true });
  }
}
await browser.close();
process.stdout.write(`${folder}\n`);
