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
      // One record for each text written, also where several came before the observer was called.
      for (const { addedNodes } of records) for (const node of addedNodes) seen.texts.push(node.textContent ?? '');
      seen.lefts.push(unit.getBoundingClientRect().left);
    };
    new MutationObserver(look).observe(digits, { childList: true });
  });
  const heard: string[] = [];
  const stop = bench.service.hear('heard', (news) => {
    for (const row of news) {
      if (!('value' in row) || row.gauge !== bench.gauges.indicator) continue;
      heard.push(
        row.value
          .toFixed(3)
          .replace(/^-0\.000$/u, '0.000')
          .replace('-', '−'),
      );
    }
  });
  await bench.service.answers['bench.hand']({ action: { do: 'rock', stations: 1 } });
  stop();
  await page.waitForTimeout(500);
  const { texts, lefts } = await page.evaluate(() => (globalThis as unknown as { seen: Seen }).seen);
  // The bench's rows are a run within what the page wrote: none left out, none twice, none out of order.
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
