import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readNotebook } from '../../src/shared/job/records/build.ts';
import type { Deed } from '../../src/shared/job/records/notebook.ts';
import { type BenchPage, buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { newFolder, valueOf } from '../support/bench/open.ts';
import { goTo } from '../support/browser.ts';
import { plainJpeg } from '../support/photos.ts';

let bench: BenchPage;
let ids: { readonly build: string; readonly trial: string };
beforeAll(async () => {
  bench = await openBenchPage();
  ids = await buildInTrial(bench.service);
});
afterAll(() => bench.close());

const by = 'R. Lindqvist';
const shims = (mm: number): Extract<Deed, { kind: 'measured' }>['result'] => ({
  kind: 'shims',
  packs: [{ place: 'pinion-depth', each: [], pack: { value: mm, unit: 'mm' } }],
});

async function buildNow() {
  const notebook = valueOf(await bench.service.answers['builds.read']({ build: ids.build }));
  return readNotebook(notebook.id, notebook.entries);
}
const ways = async (): Promise<readonly string[]> =>
  (await buildNow()).assemblies.flatMap(({ photos }) => photos.map(({ from }) => from));

const sources = (page: Page) =>
  goTo(page, { at: 'photo', build: ids.build, assembly: ids.trial, flank: 'coast', place: 1 });
const opened = (page: Page) => page.getByText('Tap where toe and root meet (1 of 4)').waitFor();

it('takes photos from a drop, the clipboard, the folder of a phone and a camera, and says so of each', async () => {
  const { page, faults } = await bench.open();
  const handed = (kind: 'paste' | 'drop', jpeg: Buffer) =>
    page.evaluate(
      ([how, base64]) => {
        const bytes = Uint8Array.from(atob(base64), (letter) => letter.codePointAt(0) ?? 0);
        const files = new DataTransfer();
        files.items.add(new File([bytes], 'photo.jpg', { type: 'image/jpeg' }));
        const place = document.querySelector('.sources') ?? document.body;
        if (how === 'paste') place.dispatchEvent(new ClipboardEvent('paste', { clipboardData: files, bubbles: true }));
        else place.dispatchEvent(new DragEvent('drop', { dataTransfer: files, bubbles: true, cancelable: true }));
      },
      [kind, jpeg.toString('base64')] as const,
    );
  await sources(page);
  await handed('drop', plainJpeg(640, 480));
  await opened(page);
  await sources(page);
  await handed('paste', plainJpeg(641, 480));
  await opened(page);

  const inbox = join(newFolder(), 'inbox');
  mkdirSync(inbox);
  await sources(page);
  await page.getByRole('button', { name: /^Folder for photos/u }).click();
  await page.getByLabel('Path of the folder').fill(join(inbox, 'nowhere'));
  await page.getByRole('button', { name: 'Watch it' }).click();
  await page.getByText('is not there or may not be read').waitFor();
  await page.getByLabel('Path of the folder').fill(inbox);
  await page.getByRole('button', { name: 'Watch it' }).click();
  await page.keyboard.press('Escape');
  await page.getByText(`Waiting for photos in ${inbox}`).waitFor();
  writeFileSync(join(inbox, 'from-the-phone.jpg'), plainJpeg(642, 480));
  await page.getByRole('button', { name: /^Take it/u }).click();
  await opened(page);
  await sources(page);
  await page.getByText(`Waiting for photos in ${inbox}`).waitFor();

  // Refused first, as a person may; then allowed.
  await page.getByRole('button', { name: 'Use a camera on the bench' }).click();
  await page.getByText(/The camera was not allowed/u).waitFor();
  await page.getByRole('button', { name: 'Put the camera away' }).click();
  await page.context().grantPermissions(['camera']);
  await page.getByRole('button', { name: 'Use a camera on the bench' }).click();
  await page.locator('.button--next:not([data-disabled])', { hasText: 'Take the photo' }).waitFor();
  await page.waitForFunction(() => (document.querySelector('video')?.videoWidth ?? 0) > 0);
  await page.getByRole('button', { name: 'Take the photo' }).click();
  await opened(page);
  expect(await ways()).toEqual(['file', 'clipboard', 'folder', 'camera']);

  // One that is of no use is put aside: struck through, said so, and brought back by redo.
  await sources(page);
  await page.getByRole('button', { name: /^Put aside.*photo 2/u }).click();
  await page.getByText(/a photo on trial 1|a photo of trial 1/iu).waitFor();
  expect(await ways()).toEqual(['file', 'folder', 'camera']);
  await page.keyboard.press('Control+Shift+Z');
  await page.getByRole('button', { name: /^Put aside.*photo 4/u }).waitFor();
  expect(await ways()).toEqual(['file', 'clipboard', 'folder', 'camera']);
  expect(faults).toEqual([]);
});

it('holds a photo that the bench could not store, and keeps it when it can', async () => {
  const answers = bench.service.answers as { -readonly [Name in keyof typeof bench.service.answers]: unknown };
  const keep = answers['photos.keep'];
  const full = { kind: 'disk-full', sentence: 'The disk is full.', remedy: 'Make room on it and try again.' };
  answers['photos.keep'] = () => Promise.resolve({ ok: false, problem: full });
  const { page, faults } = await bench.open();
  await sources(page);
  const before = (await ways()).length;
  const photo = { name: 'tooth.jpg', mimeType: 'image/jpeg', buffer: plainJpeg(643, 480) };
  await page.getByLabel('Photo file').setInputFiles(photo);
  await page.getByText('The disk is full.').waitFor();
  expect(await ways()).toHaveLength(before);
  answers['photos.keep'] = keep;
  await page.locator('.button--next', { hasText: 'Keep the photo' }).click();
  await opened(page);
  expect(await ways()).toHaveLength(before + 1);
  expect(faults).toEqual([]);
});

it('lays every trial beside the others, and goes back to the shims of one in one step', async () => {
  const write = async (deed: Deed) =>
    valueOf(await bench.service.answers['builds.write']({ build: ids.build, by, deed }));
  const typed = { kind: 'typed', tool: 'Micrometer', resolution: { value: 0.01, unit: 'mm' } } as const;
  const measured = { kind: 'measured', check: 'shims', how: typed } as const;
  await write({ ...measured, assembly: ids.trial, result: shims(1.2) });
  const assembly = { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false } as const;
  const second = (await write({ kind: 'assembled', assembly })).entries.at(-1)?.id ?? '';
  await write({ ...measured, assembly: second, result: shims(1.25) });

  const { page, faults } = await bench.open();
  await goTo(page, { at: 'trials', build: ids.build });
  const column = (name: string) => page.getByRole('listitem', { name, exact: true });
  expect(await column('Trial 2').innerText()).toContain('0.050 mm thicker');
  expect(
    await column('Trial 2')
      .getByRole('button', { name: /^Back to these shims/u })
      .count(),
  ).toBe(0);
  await column('Trial 1')
    .getByRole('button', { name: /^Back to these shims/u })
    .click();
  await page.locator('h1', { hasText: 'Shims by place' }).waitFor();
  const depth = page.getByRole('group', { name: 'Pinion depth' });
  expect(await depth.getByLabel('Pack as clamped', { exact: true }).inputValue()).toBe('1.2');
  const third = (await buildNow()).assemblies.at(-1);
  expect(third).toMatchObject({ phase: 'trial', number: 3 });
  // Laid out, not recorded: nobody has measured that pack in this trial yet.
  expect(third?.measurements).toEqual([]);
  expect(faults).toEqual([]);
});
