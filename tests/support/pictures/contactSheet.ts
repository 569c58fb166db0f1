import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import type { Measured } from './measured.ts';

/** One picture as it was taken. */
export interface TakenPicture extends Measured {
  readonly look: string;
  readonly name: string;
  readonly file: string;
}

const across_px = 400;

/** One sheet a look with every screen on it, so that they can be compared; each picture lies beside it in full. */
export async function contactSheets(browser: Browser, folder: string, taken: readonly TakenPicture[]): Promise<void> {
  const page = await browser.newPage({ viewport: { width: across_px * 4 + 100, height: 800 } });
  for (const look of new Set(taken.map((one) => one.look))) {
    const figures = taken
      .filter((one) => one.look === look)
      .map(({ file, name }) => {
        const data = readFileSync(file).toString('base64');
        return `<figure><img width="${across_px}" src="data:image/png;base64,${data}"><figcaption>${name}</figcaption></figure>`;
      });
    await page.setContent(
      `<style>body{display:grid;grid-template-columns:repeat(4,${across_px}px);gap:12px;font:14px sans-serif;background:#999}figure{margin:0}</style>${figures.join('')}`,
    );
    await page.screenshot({ path: join(folder, `sheet-${look}.png`), fullPage: true });
  }
  await page.close();
}

/** Blank share of each stage, and the smallest letters at three metres, one row a screen and one column a look. */
export function pictureTable(taken: readonly TakenPicture[]): string {
  const light = [...new Set(taken.map(({ look }) => look))].filter((look) => look.endsWith('-light'));
  const names = [...new Set(taken.map(({ name }) => name))];
  const of = (name: string, look: string): string => {
    const one = taken.find((picture) => picture.name === name && picture.look === look);
    if (one === undefined) return '–';
    const far = Object.values(one.far);
    return `${Math.round(one.blank * 100)} %${far.length === 0 ? '' : `, ${Math.min(...far).toFixed(1)}′`}`;
  };
  return [
    'blank share of the stage, and the smallest of what is read from the gear in minutes of arc at 3 m (wanted 7):',
    `| screen | ${light.map((look) => look.replace('-light', '')).join(' | ')} |`,
    `| --- |${light.map(() => ' --- |').join('')}`,
    ...names.map((name) => `| ${name} | ${light.map((look) => of(name, look)).join(' | ')} |`),
  ].join('\n');
}
