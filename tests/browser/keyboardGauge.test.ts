import { afterAll, beforeAll, expect, it } from 'vitest';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../support/benchPage.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());

it('reads a gauge that types like a keyboard, never into a form, and leaves a person\u2019s keys alone', async () => {
  const record = { label: 'Typing indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } } as const;
  const saved = await bench.service.answers['gauges.save']({ gauge: { ...record, link: 'keyboard:', unit: 'mm' } });
  const { id } = valueOf(saved);
  const { page, faults } = await bench.open();
  await show(page, { at: 'gauges' });
  await page.getByRole('button', { name: 'At another port, or in the network' }).click();
  const field = page.getByLabel('Name in the shop');
  await field.click();
  const values: number[] = [];
  bench.service.hear('heard', (news) => {
    for (const row of news) if ('value' in row && row.gauge === id) values.push(row.value);
  });

  // Not plugged in, its keys are a keyboard's: nothing is held, nothing is read.
  await page.keyboard.type('1.5');
  expect(await field.inputValue()).toBe('1.5');

  valueOf(await bench.service.answers['gauges.plug-in']({ gauge: id }));
  await untilLive(bench.service, id);
  await page.locator('.strip-gauge', { hasText: 'Typing indicator' }).waitFor();
  await page.waitForTimeout(300);
  // All keys in one task of the page: as close together as a gauge's.
  const gaugeTypes = (line: string): Promise<void> =>
    page.evaluate((text) => {
      for (const key of [...Array.from(text), 'Enter']) {
        const stroke = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
        document.activeElement?.dispatchEvent(stroke);
        document.activeElement?.dispatchEvent(new KeyboardEvent('keyup', { key, bubbles: true, cancelable: true }));
      }
    }, line);
  await gaugeTypes('+0.237');
  await gaugeTypes('+0.238');
  await expect.poll(() => values).toEqual([0.237, 0.238]);
  expect(await field.inputValue()).toBe('1.5');
  await page.keyboard.type('abc', { delay: 120 });
  await expect.poll(() => field.inputValue()).toBe('1.5abc');
  expect(values).toEqual([0.237, 0.238]);

  // Whatever lies over the page has the focus: a list, in which letters seek and Enter chooses; one that is written in; a dialog.
  await page.getByRole('button', { name: /Unit where the line has none/u }).click();
  await page.getByRole('option', { name: 'in', exact: true }).hover();
  await gaugeTypes('+0.239');
  await expect.poll(() => values.at(-1)).toBe(0.239);
  expect(await page.getByRole('listbox').count()).toBe(1);
  await page.keyboard.press('Escape');
  await page.getByRole('listbox').waitFor({ state: 'detached' });
  await page.getByRole('button', { name: /As it is sent/u }).waitFor();

  // A list closes when the page behind it is scrolled: what a click scrolls to is brought into view before.
  const baudRates = page.getByRole('button', { name: /suggestions.*Baud rate/iu });
  await baudRates.scrollIntoViewIfNeeded();
  await page.waitForTimeout(500);
  await baudRates.click();
  await page.getByRole('option', { name: '19200' }).hover();
  await gaugeTypes('+0.240');
  await expect.poll(() => values.at(-1)).toBe(0.24);
  expect(await page.getByRole('combobox', { name: 'Baud rate' }).inputValue()).toBe('9600');
  await page.keyboard.press('Escape');

  await page.getByRole('button', { name: /handshake/u }).click();
  await gaugeTypes('+0.241');
  await expect.poll(() => values.at(-1)).toBe(0.241);
  await page.getByRole('dialog').waitFor();
  await page.keyboard.press('Escape');
  await page.getByText('8 bits, no parity, 1 stop bit').waitFor();

  await page.getByRole('button', { name: 'Settings' }).click();
  await page.getByRole('dialog').waitFor();
  await gaugeTypes('+0.242');
  await expect.poll(() => values).toEqual([0.237, 0.238, 0.239, 0.24, 0.241, 0.242]);
  expect(await page.getByRole('dialog').count()).toBe(1);
  expect(faults).toEqual([]);
  await page.context().close();
});
