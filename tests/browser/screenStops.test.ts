import { afterAll, beforeAll, expect, it } from 'vitest';
import { goTo } from '../support/browser.ts';
import { type BenchPage, buildInTrial, openBenchPage, untilLive } from '../support/benchPage.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

/** Runs in the page: no day can be written any more, so every screen with a day on it throws while it is drawn. */
function breakDays(): void {
  Object.defineProperty(Intl.DateTimeFormat.prototype, 'formatToParts', {
    configurable: true,
    value: () => {
      throw new RangeError('no day can be written');
    },
  });
}

/** Runs in the page: days can be written again, if only as nothing. */
function mendDays(): void {
  Object.defineProperty(Intl.DateTimeFormat.prototype, 'formatToParts', { configurable: true, value: () => [] });
}

it('keeps rail, gauges and the way on alive around a screen that throws', async () => {
  const { build } = await buildInTrial(bench.service);
  const { page } = await bench.open();
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await goTo(page, { at: 'build', build });
  await page.evaluate(breakDays);
  await goTo(page, { at: 'notes', build });

  expect(await page.locator('main h1').innerText()).toBe('This screen stopped');
  expect(await page.locator('.words').innerText()).toContain('no day can be written');
  // The rail still leads somewhere and the strip still follows its gauge.
  expect(await page.locator('.job-chip', { hasText: 'Limits' }).count()).toBe(1);
  const value = page.locator('.strip-gauge').first();
  const before = await value.innerText();
  const moving = bench.service.answers['bench.hand']({ action: { do: 'rock', stations: 1 } });
  await page.waitForFunction((text) => document.querySelector('.strip-gauge')?.textContent !== text, before);

  await page.getByRole('button', { name: 'Copy the report' }).click();
  await page.getByRole('button', { name: 'Report copied' }).waitFor();
  const report = await page.evaluate(() => navigator.clipboard.readText());
  expect(report).toContain('Screen: notes');
  expect(report).toContain('Fault: RangeError: no day can be written');
  expect(report).toMatch(/Inside:\n.*index-\S+\.js/u);
  expect(report).not.toContain(build);

  // Another screen is drawn as ever; back on this one, trying it again meets the same fault until it is gone.
  await page.locator('.job-chip', { hasText: 'Limits' }).click();
  await page.locator('main h1', { hasText: 'Limits' }).waitFor();
  await page.goBack();
  await page.locator('main h1', { hasText: 'This screen stopped' }).waitFor();
  await page.evaluate(mendDays);
  await page.getByRole('button', { name: 'Try this screen again' }).click();
  await page.locator('main h1', { hasText: 'Notes' }).waitFor();
  await moving;
});

it('tells a fault that happens outside of drawing, and goes on', async () => {
  const { page } = await bench.open();
  await page.locator('.strip-gauge').first().waitFor();
  await page.evaluate(() => void Promise.reject(new Error('the answer was lost')));
  const told = page.locator('.problem-line');
  await told.waitFor();
  expect(await told.innerText()).toContain('Error: the answer was lost');
  await page.getByRole('button', { name: 'Close' }).click();
  await told.waitFor({ state: 'detached' });
  expect(await page.locator('main h1').innerText()).toBe('Put an axle on the stand');
});
