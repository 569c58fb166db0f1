import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { verifyCertificate } from '../../src/main/certificate/verify.ts';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { readFileSync } from 'node:fs';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());
const patience = { timeout: 90_000 };
const picture = process.env['CERTIFICATE_PICTURE'];

it('is looked at before it is issued, page by page, and printed as it is drawn', async () => {
  const { build } = await buildInTrial(bench.service);
  const { page, faults } = await bench.open();
  // What would go to the printer is looked at in its place.
  await page.addInitScript(() => {
    window.print = () => {
      const images = [...document.querySelectorAll<HTMLImageElement>('.printed img')];
      const widths = images.map(({ complete, naturalWidth }) => (complete ? naturalWidth : 0));
      document.body.dataset['sent'] = JSON.stringify({ paper: document.documentElement.dataset['printing'], widths });
    };
  });
  await page.reload();
  await show(page, { at: 'certificate', build });
  const first = page.getByRole('img', { name: 'First page of the certificate' });
  // A loaded machine takes a while to start the thread that draws.
  await first.waitFor(patience);
  const letter = page.getByText('Letter', { exact: true });
  await letter.click();
  await expect
    .poll(
      () => first.evaluate((image: HTMLImageElement) => Math.round((image.naturalHeight / image.naturalWidth) * 100)),
      patience,
    )
    .toBe(129);
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'certificate.png') });
  const told = (await page.locator('figcaption').textContent()) ?? '';
  const count = Number(/of (\d+)/u.exec(told)?.[1]);
  expect(count).toBeGreaterThan(1);
  await page.getByRole('button', { name: 'Look at every page' }).click();
  await page.getByRole('img', { name: `Page ${count}` }).waitFor(patience);
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'pages.png') });
  await page.getByRole('button', { name: 'Close' }).click();
  await page.getByRole('button', { name: 'Print', exact: true }).click();
  await expect
    .poll(() => page.locator('body').getAttribute('data-sent'), patience)
    .toBe(JSON.stringify({ paper: 'letter', widths: Array.from({ length: count }, () => 1654) }));
  expect(await page.locator('.printed').count()).toBe(0);
  await page.getByRole('button', { name: 'Print a tag for the axle' }).click();
  await expect
    .poll(() => page.locator('body').getAttribute('data-sent'), patience)
    .toBe(JSON.stringify({ paper: 'letter', widths: [1654] }));
  const download = page.waitForEvent('download', patience);
  await page.getByRole('button', { name: 'The pages (PDF), not issued' }).click();
  const file = await (await download).path();
  expect(await verifyCertificate(readFileSync(file))).toMatchObject({ ok: true, value: { holds: true } });
  const notebook = valueOf(await bench.service.answers['builds.read']({ build }));
  expect(notebook.entries.filter(({ deed }) => deed.kind === 'certified')).toEqual([]);
  expect(faults).toEqual([]);
  await page.context().close();
});

it('gives its tables to a spreadsheet by a button and by Ctrl+C, and leaves marked words alone', async () => {
  const { page, faults } = await bench.open();
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await show(page, { at: 'gauges', gauge: bench.gauges.indicator });
  const copied = (): Promise<string> => page.evaluate(() => navigator.clipboard.readText());
  await page.getByRole('button', { name: 'Copy the table' }).click();
  await page.getByText('Copied', { exact: true }).waitFor();
  const lines = (await copied()).split('\n');
  expect(lines[0]).toBe('Row\tReceived');
  expect(lines[1]).toMatch(/^\d+\t-?\d+\.\d+ mm$/u);
  await page.evaluate(() => navigator.clipboard.writeText('before'));
  await page.locator('main').focus();
  await page.keyboard.press('Control+c');
  await expect.poll(copied).toMatch(/^Row\tReceived\n/u);
  await page.locator('main h1').selectText();
  await page.keyboard.press('Control+c');
  await expect.poll(copied).toBe(await page.locator('main h1').textContent());
  expect(faults).toEqual([]);
  await page.context().close();
});
