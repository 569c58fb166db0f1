import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

interface Seen {
  readonly texts: string[];
  readonly lefts: number[];
}

it('writes every reading into the page as it is heard, and its unit never moves', async () => {
  const { page, faults } = await bench.open();
  await show(page, { at: 'just-measure' });
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  await page.evaluate(() => {
    const seen: Seen = { texts: [], lefts: [] };
    Object.assign(globalThis, { seen });
    const digits = document.querySelector('.readout .live__digits');
    const unit = document.querySelector('.readout .live__unit');
    if (digits === null || unit === null) return;
    const look = (records: readonly MutationRecord[]): void => {
      // One record for each text written over, also where several came before the observer was called.
      for (const { oldValue } of records) seen.texts.push(oldValue ?? '');
      seen.lefts.push(unit.getBoundingClientRect().left);
    };
    const changes = { characterData: true, characterDataOldValue: true, subtree: true };
    new MutationObserver(look).observe(digits, changes);
  });
  const heard: string[] = [];
  const stop = bench.service.hear('heard', (news) => {
    const row = news.findLast((one) => 'value' in one && one.gauge === bench.gauges.indicator);
    if (row === undefined || !('value' in row)) return;
    const words = row.value
      .toFixed(3)
      .replace(/^-0\.000$/u, '0.000')
      .replace('-', '−');
    // What the page shows already is not written again.
    if (heard.at(-1) !== words) heard.push(words);
  });
  await bench.service.answers['bench.hand']({ action: { do: 'rock', stations: 1 } });
  stop();
  await page.waitForTimeout(500);
  const { texts, lefts } = await page.evaluate(() => (globalThis as unknown as { seen: Seen }).seen);
  // What the bench's news ended with is a run within what the page wrote: none left out, none twice, none out of order.
  expect(heard.length).toBeGreaterThan(50);
  expect(texts.join(' ')).toContain(heard.join(' '));
  expect(new Set(lefts).size).toBe(1);
  expect(faults).toEqual([]);
  await page.context().close();
});

it('shows the same reading in inches at once, and back', async () => {
  const { page } = await bench.open();
  await show(page, { at: 'just-measure' });
  const digits = page.locator('.readout .live__digits');
  const unit = page.locator('.readout .live__unit');
  const number = async (): Promise<number> => Number((await digits.innerText()).replace('−', '-'));
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  const metric = await number();
  await page.keyboard.press('u');
  expect(await unit.innerText()).toContain('in');
  // The stem hangs still; its last digit may flicker by a few steps of 0.001 mm between the two looks.
  expect((await number()) * 25.4).toBeCloseTo(metric, 1);
  await page.keyboard.press('u');
  expect(await unit.innerText()).toContain('mm');
  await page.context().close();
});

it('says that the bench is out of reach, and what to do', async () => {
  const { page } = await bench.open();
  await page.locator('.strip-gauge').first().waitFor();
  await bench.host.close();
  const alert = page.getByRole('alert');
  await alert.waitFor();
  expect(await alert.innerText()).toContain('The bench cannot be reached.');
  expect(await alert.innerText()).toContain('open the link it printed');
  await page.context().close();
});
