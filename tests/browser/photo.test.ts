import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import jpegJs from 'jpeg-js';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readPattern } from '../../src/shared/axle/mark/readPattern.ts';
import { latest, readNotebook } from '../../src/shared/job/records/build.ts';
import { isNone } from '../../src/shared/basics/result.ts';
import { type BenchPage, buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { goTo } from '../support/browser.ts';
import { bmpHead, plainJpeg, pngHead, renderedPhoto } from '../support/photos.ts';

let bench: BenchPage;
let ids: { readonly build: string; readonly trial: string };
/** These photographs are rendered: no camera took them. */
const { jpeg, taken } = renderedPhoto(8, [1200, 900]);

/** The same kind of rendering (seed 11, 816 by 612) as phones keep their photos, written by libheif's own encoder. */
const heic = readFileSync(join(import.meta.dirname, '..', 'support', 'phone.heic'));

beforeAll(async () => {
  bench = await openBenchPage();
  ids = await buildInTrial(bench.service);
});
afterAll(() => bench.close());

const next = (page: Page, words: string) => page.locator('.button--next', { hasText: words });
const give = (page: Page, buffer: Buffer, name = 'tooth.jpg', mimeType = 'image/jpeg') =>
  page.getByLabel('Photo file').setInputFiles({ name, mimeType, buffer });

/** Taps the four corners where a hand would, on the photo as it lies on the screen. */
async function tapCorners(page: Page, corners = taken.corners): Promise<void> {
  const picture = page.locator('.photo__picture');
  await picture.waitFor();
  const box = await picture.boundingBox();
  if (box === null) throw new Error('the photo is not shown');
  for (const [x, y] of corners) await page.mouse.click(box.x + (x * box.width) / 1200, box.y + (y * box.height) / 900);
}

async function trialNow(of = ids) {
  const notebook = valueOf(await bench.service.answers['builds.read']({ build: of.build }));
  const trial = readNotebook(notebook.id, notebook.entries).assemblies.find(({ id }) => id === of.trial);
  if (trial === undefined) throw new Error('the trial is gone');
  const mark = latest(trial, 'mark')?.result;
  return { trial, mark: mark?.kind === 'mark' ? mark : undefined };
}

it('reads a mark off a photo, lets a brush correct it, keeps both, and shows them after a reload', async () => {
  const { page, faults } = await bench.open();
  await goTo(page, { at: 'photo', build: ids.build, assembly: ids.trial, flank: 'drive', place: 0 });
  for (const [buffer, sentence] of [
    [Buffer.from('hello'), 'This file is no JPEG, HEIC, PNG or WebP picture.'],
    [bmpHead(60_000, 60_000), 'This file is no JPEG, HEIC, PNG or WebP picture.'],
    [pngHead(60_000, 60_000), 'more than 60 million pixels'],
    [jpeg.subarray(0, 900), 'The photo is broken'],
    [Buffer.from('\0\0\0\u0018ftypheic\0\0\0\0', 'latin1'), 'The photo is broken'],
    [heic.subarray(0, heic.length / 2), 'The photo is broken'],
    [plainJpeg(120, 90), 'smaller than 200 pixels'],
  ] as const) {
    await give(page, buffer);
    await page.getByText(sentence).waitFor();
  }
  expect((await trialNow()).trial.photos).toEqual([]);

  await give(page, jpeg);
  await page.getByText('Tap where toe and root meet (1 of 4)').waitFor();
  // It is in the notebook before anything is read off it.
  expect((await trialNow()).trial.photos).toMatchObject([{ width: 1200, height: 900, from: 'file' }]);
  await tapCorners(page);
  await page.locator('[data-read="numbers"]').waitFor();
  const before = await page.locator('[data-read="numbers"]').textContent();
  expect(before).toMatch(/^Centre \d+ % of the face to the (?:toe|heel) ±\d+ %; .*covers \d+ % of the flank/u);

  // A stroke along the crown calls that part mark, so the centre rises; undone, it is as it was.
  const flank = await page.locator('.straight__flank').boundingBox();
  if (flank === null) throw new Error('the straight flank is not shown');
  await page.mouse.move(flank.x + flank.width * 0.3, flank.y + flank.height * 0.1);
  await page.mouse.down();
  await page.mouse.move(flank.x + flank.width * 0.7, flank.y + flank.height * 0.1, { steps: 12 });
  await page.mouse.up();
  await page.waitForFunction((text) => document.querySelector('[data-read]')?.textContent !== text, before);
  expect(await page.locator('[data-read]').textContent()).toContain('crown');
  await page.getByRole('button', { name: 'Undo the brush' }).click();
  await page.waitForFunction((text) => document.querySelector('[data-read]')?.textContent === text, before);

  await next(page, 'Use it for the drive flank').click();
  await page.getByRole('button', { name: 'There is none' }).click();
  await page.getByText('Change shims', { exact: true }).click();
  await next(page, 'Keep the mark').click();
  await page.getByText('Kept: mark on the teeth, asks for a change.').waitFor();

  const { trial, mark } = await trialNow();
  const drive = mark === undefined || isNone(mark.drive) ? undefined : mark.drive;
  // What reading promises (heel 0.03, crown 0.05), with what a tap on a screen pixel adds.
  expect(Math.abs((drive?.heel ?? 9) - taken.mark.heel)).toBeLessThan(0.04);
  expect(Math.abs((drive?.crown ?? 9) - taken.mark.crown)).toBeLessThan(0.06);
  expect(drive?.U95?.crown).toBeGreaterThan(0);
  expect(mark?.photos).toMatchObject([{ photo: trial.photos[0]?.sha256, flank: 'drive', place: 0, brushed: [] }]);

  // From the record alone, with another decoder, the same mark comes out again.
  const [read] = mark?.photos ?? [];
  if (read === undefined) throw new Error('the mark does not say from which photo it was read');
  const { jpeg_base64 } = valueOf(await bench.service.answers['photos.read']({ sha256: read.photo }));
  const again = valueOf(
    readPattern(jpegJs.decode(Buffer.from(jpeg_base64, 'base64'), { useTArray: true }), read.corners, {
      depth: read.depth,
    }),
  );
  expect(Math.abs(again.mark.heel - (drive?.heel ?? 9))).toBeLessThan(0.005);
  expect(Math.abs(again.mark.crown - (drive?.crown ?? 9))).toBeLessThan(0.005);

  await goTo(page, { at: 'check', build: ids.build, assembly: ids.trial, check: 'mark' });
  await page.reload();
  await page.getByRole('button', { name: /^Photo ?, of the drive flank/u }).click();
  await page.locator('[data-read="numbers"]').waitFor();
  expect(await page.locator('[data-read="numbers"]').textContent()).toBe(before);
  expect(faults.filter((fault) => !fault.includes('net::'))).toEqual([]);
});

it('takes a photo as phones keep it (HEIC), and reads it like another', async () => {
  const { build, trial } = await buildInTrial(bench.service);
  const { page, faults } = await bench.open();
  await goTo(page, { at: 'photo', build, assembly: trial, flank: 'drive', place: 0 });
  await give(page, heic, 'IMG_0001.HEIC', 'image/heic');
  await page.getByText('Tap where toe and root meet (1 of 4)').waitFor();
  expect((await trialNow({ build, trial })).trial.photos).toMatchObject([{ width: 816, height: 612, from: 'file' }]);
  expect(faults).toEqual([]);
  await page.close();
});

it('lets a hand outline the mark where nothing can be read, with a hand’s doubt', async () => {
  const own = await buildInTrial(bench.service, 'Rear axle 1208, outlined by hand');
  const unmarked = renderedPhoto(8, [1200, 900], 'no-mark');
  const { page, faults } = await bench.open();
  await goTo(page, { at: 'photo', build: own.build, assembly: own.trial, flank: 'coast', place: 0 });
  await give(page, unmarked.jpeg);
  await page.getByText('Tap where toe and root meet (1 of 4)').waitFor();
  await tapCorners(page, unmarked.taken.corners);
  await page.getByText('No mark stands out from the compound').waitFor();
  await page.getByText('Brush: paint where the mark lies').waitFor();

  const flank = await page.locator('.straight__flank').boundingBox();
  if (flank === null) throw new Error('the straight flank is not shown');
  const at = (along: number, up: number) => [flank.x + flank.width * along, flank.y + flank.height * (1 - up)] as const;
  // A ring round the middle: what it encloses is the mark.
  await page.mouse.move(...at(0.7, 0.5));
  await page.mouse.down();
  for (let turn = 0; turn <= 64; turn += 1) {
    const angle = (2 * Math.PI * turn) / 60;
    await page.mouse.move(...at(0.5 + 0.2 * Math.cos(angle), 0.5 + 0.25 * Math.sin(angle)));
  }
  await page.mouse.up();
  await page.getByText('The mark as it was outlined').waitFor();
  await page.getByText('Outlined by hand: where the mark lies is less sure').waitFor();
  await next(page, 'Use it for the coast flank').click();
  await page.getByRole('button', { name: 'There is none' }).click();
  await page.getByText('Change shims', { exact: true }).click();
  await next(page, 'Keep the mark').click();
  await page.getByText('Kept: mark on the teeth, asks for a change.').waitFor();

  const { mark } = await trialNow(own);
  const coast = mark === undefined || isNone(mark.coast) ? undefined : mark.coast;
  expect(Math.abs(coast?.heel ?? 9)).toBeLessThan(0.05);
  expect(Math.abs(coast?.crown ?? 9)).toBeLessThan(0.07);
  expect(coast?.U95?.heel).toBeGreaterThan(0.06);
  expect(coast?.U95?.crown).toBeGreaterThan(0.08);
  expect(mark?.photos?.find((one) => one.flank === 'coast')).toMatchObject({ fromEmpty: true });
  expect(faults.filter((fault) => !fault.includes('net::'))).toEqual([]);
});
