import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Build, latest, readNotebook } from '../../src/shared/job/records/build.ts';
import { type BenchPage, buildInTrial, openBenchPage, untilLive } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

/** Runs in the page: every name by which a screen reader could call what has the focus. */
function focusedNames(): string {
  const element = document.activeElement;
  if (!(element instanceof HTMLElement)) return '';
  const labels =
    element instanceof HTMLInputElement ? [...(element.labels ?? [])].map((label) => label.textContent) : [];
  const ids = element.getAttribute('aria-labelledby')?.split(' ') ?? [];
  const named = ids.map((id) => document.querySelector(`[id="${id}"]`)?.textContent ?? '');
  // A stage that scrolls takes the focus too, and has every word on it.
  const own = element.matches('button, a, summary, [role]') ? element.textContent : '';
  return [element.getAttribute('aria-label') ?? '', ...labels, ...named, own].join(' ');
}

/** Presses Tab until what has the focus is called `name`, as somebody without a mouse would. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  const passed: string[] = [];
  for (let tries = 0; tries < 80; tries += 1) {
    const focused = await page.evaluate(focusedNames);
    if (name.test(focused)) return;
    passed.push(focused);
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab never reached ${name}, only ${passed.join(' | ')}`);
}

async function read(build: string): Promise<Build> {
  const notebook = valueOf(await bench.service.answers['builds.read']({ build }));
  return readNotebook(build, notebook.entries);
}

const headline = (page: Page) => page.locator('main h1').innerText();

it('starts and describes a build with nothing but keys', async () => {
  const { page, faults } = await bench.open();
  await page.locator('.strip-gauge').first().waitFor();
  await tabTo(page, /What is on the stand/u);
  // Letters that are commands elsewhere are only letters in a field.
  await page.keyboard.type('Mug bug, axle 7');
  expect(await headline(page)).toBe('Put an axle on the stand');
  await tabTo(page, /Technician/u);
  await page.keyboard.type('U. Berg');
  await page.keyboard.press('Enter');
  await page.locator('h1', { hasText: 'The axle' }).waitFor();

  await tabTo(page, /Pinion teeth/u);
  await page.keyboard.type('13');
  await tabTo(page, /Ring gear teeth/u);
  await page.keyboard.type('45');
  for (const answer of [
    /New set/u,
    /reverse-cut/u,
    /In the housing/u,
    /Crush sleeve/u,
    /outboard of the cups/u,
    /head and bearing/u,
  ]) {
    await tabTo(page, answer);
    await page.keyboard.press('Space');
  }
  // The pedal's key keeps the description, from wherever the focus is.
  await page.keyboard.press('PageDown');
  await page.locator('h1', { hasText: 'Limits' }).waitFor();
  const summaries = valueOf(await bench.service.answers['builds.list']({}));
  const started = summaries.find(({ title }) => title === 'Mug bug, axle 7');
  const build = await read(started?.id ?? '');
  expect(build.technician).toBe('U. Berg');
  expect(build.makeUp).toMatchObject({ pinionTeeth: 13, ringTeeth: 45, pinionPreload: 'crush-sleeve' });
  expect(faults).toEqual([]);
  await page.context().close();
});

it('lets the pedal through after a click, and leaves Space to whoever came by Tab', async () => {
  const { build, trial } = await buildInTrial(bench.service, 'Axle for the pedal');
  const { page } = await bench.open();
  await show(page, { at: 'check', build, assembly: trial, check: 'set-numbers' });
  await page.getByLabel('On the pinion head').fill('207');
  await page.getByLabel('On the ring gear').fill('207');
  // The words are clicked, so nothing that is typed into has the focus; then the foot comes down.
  await page.locator('main h1').click();
  await page.keyboard.press('Space');
  // Nothing about it needs a look: the next step says that it was kept.
  await page.getByText('Kept: set numbers, 207, alike.').waitFor();
  const [assembly] = (await read(build)).assemblies;
  expect(assembly === undefined ? undefined : latest(assembly, 'set-numbers')?.result).toEqual({
    kind: 'set-numbers',
    pinion: '207',
    ringGear: '207',
  });

  await show(page, { at: 'builds' });
  await tabTo(page, /^\s*Settings/u);
  await page.keyboard.press('Space');
  await page.getByRole('dialog').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await page.context().close();
});

it('has one key for every place, and none of them fires under an open sheet', async () => {
  const { page } = await bench.open();
  await page.locator('.strip-gauge').first().waitFor();
  await page.keyboard.press('m');
  expect(await headline(page)).toBe('Just measure');
  await page.keyboard.press('g');
  expect(await headline(page)).toBe('Plug a gauge in');
  await page.keyboard.press('b');
  expect(await headline(page)).toBe('Put an axle on the stand');
  await page.keyboard.press(',');
  await page.getByRole('dialog').waitFor();
  await page.keyboard.press('m');
  expect(await headline(page)).toBe('Put an axle on the stand');
  await page.context().close();
});

it('draws and shapes a mark on both flanks with arrow keys', async () => {
  const { build, trial } = await buildInTrial(bench.service, 'Axle for the mark');
  const { page } = await bench.open();
  await show(page, { at: 'check', build, assembly: trial, check: 'mark' });
  for (const side of ['drive', 'coast']) {
    await tabTo(page, new RegExp(`Draw the ${side} mark`, 'u'));
    await page.keyboard.press('Enter');
  }
  await tabTo(page, /Accept it/u);
  await page.keyboard.press('Space');
  await tabTo(page, /Middle of the drive mark/u);
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowDown');
  await tabTo(page, /Length and slant of the drive mark/u);
  await page.keyboard.press('ArrowUp');
  // From the handle itself: the pedal is heard wherever the focus was left.
  await page.keyboard.press('PageDown');
  await page.getByText('Kept: mark on the teeth, accepted.').waitFor();
  const [assembly] = (await read(build)).assemblies;
  // With the toe at the left, right is towards the heel and down towards the root.
  expect(assembly === undefined ? undefined : latest(assembly, 'mark')?.result).toMatchObject({
    kind: 'mark',
    judgement: 'accepted',
    drive: { heel: 0.04, crown: -0.02, length: 0.5, slant_deg: 2 },
    coast: { heel: 0, crown: 0 },
  });
  await page.context().close();
});
