import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import type { Measured } from './measured.ts';

/** One picture as it was taken. */
export interface TakenPicture extends Measured {
  readonly look: string;
  readonly name: string;
  readonly file: string;
  /** What a machine sees wrong in it (layoutFaults.ts). */
  readonly faults: readonly string[];
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
