import type { Page } from 'playwright';
import { buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { goTo } from '../support/browser.ts';
import { renderedPhoto } from '../support/photos.ts';

const size = [4000, 3000] as const;
const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Counts the longest time between two frames of the page from now on. */
const watchFrames = (page: Page) =>
  page.evaluate(() => {
    const watch = { longest: 0, last: performance.now() };
    const before = (window as unknown as { watch?: { longest: number } }).watch;
    Object.assign(window, { watch: before ?? watch });
    if (before !== undefined) {
      before.longest = 0;
      return;
    }
    const frame = (now: number): void => {
      watch.longest = Math.max(watch.longest, now - watch.last);
      watch.last = now;
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
const longestFrame = (page: Page): Promise<number> =>
  page.evaluate(() => (window as unknown as { watch: { longest: number } }).watch.longest);

/** A photo of 12 megapixels as a phone keeps it, from the file to the mark on the screen, in a real browser. */
export default async function bench(print: (line: string) => void): Promise<void> {
  const { jpeg, taken } = renderedPhoto(3, size);
  const place = await openBenchPage();
  const ids = await buildInTrial(place.service);
  const { page } = await place.open();
  await goTo(page, { at: 'photo', build: ids.build, assembly: ids.trial, flank: 'drive', place: 0 });
  await watchFrames(page);
  await page.waitForTimeout(5000);
  const idle = await longestFrame(page);
  await watchFrames(page);
  const began = performance.now();
  await page.getByLabel('Photo file').setInputFiles({ name: 'tooth.jpg', mimeType: 'image/jpeg', buffer: jpeg });
  await page.locator('.photo__picture').waitFor();
  const opened_ms = performance.now() - began;
  const box = await page.locator('.photo__picture').boundingBox();
  if (box === null) throw new Error('the photo is not shown');
  for (const [x, y] of taken.corners)
    await page.mouse.click(box.x + (x * box.width) / size[0], box.y + (y * box.height) / size[1]);
  const numbers = page.locator('[data-read="numbers"]');
  await numbers.waitFor();
  const opening = await longestFrame(page);
  await watchFrames(page);
  const handle = page.getByRole('slider', { name: 'Corner of toe and root' });
  const took: number[] = [];
  for (let n = 0; n < 9; n += 1) {
    const before = await numbers.getAttribute('data-took-ms');
    took.push(Number(before));
    await handle.press(n % 2 === 0 ? 'ArrowLeft' : 'ArrowRight');
    await page.waitForTimeout(900);
  }
  print(
    `12 megapixels (${(jpeg.length / 1e6).toFixed(1)} MB): from file to screen, shrunk and stored, ${opened_ms.toFixed(0)} ms`,
  );
  print(
    `  reading the mark, in the worker: the first of the page ${took[0]?.toFixed(0)} ms, median ${median(took).toFixed(0)} ms of ${took.length} (promised under 500)`,
  );
  print(
    `  longest time between two frames of the page: opening ${opening.toFixed(0)} ms, reading ${(await longestFrame(page)).toFixed(0)} ms (idle for 5 s: ${idle.toFixed(0)} ms)`,
  );
  await place.close();
}
