import { mkdirSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BenchPage, openBenchPage } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { goTo } from '../support/browser.ts';
import { finishedBuilds } from '../support/finishedBuilds.ts';
import { buildForPlan } from '../support/planBuild.ts';

let bench: BenchPage;
let finished: readonly { readonly build: string }[];
const by = 'R. Lindqvist';

/** For whoever wants to look: the folder pictures go to. */
const pictures = process.env['SHOP_PICTURES'];

beforeAll(async () => {
  bench = await openBenchPage();
  finished = await finishedBuilds(bench.service, 2);
  const { build } = await buildForPlan(bench.service, 'Front axle 77');
  const note = async (of: string, topic: 'customer' | 'plate', text: string): Promise<void> =>
    void valueOf(await bench.service.answers['builds.write']({ build: of, by, deed: { kind: 'noted', topic, text } }));
  await note(build, 'plate', 'AX-1207 K');
  for (const one of finished) await note(one.build, 'customer', 'M. Ostrander');
  for (let n = 1; n <= 8; n += 1)
    valueOf(await bench.service.answers['builds.start']({ title: `Job ${n}`, technician: by }));
});
afterAll(() => bench.close());

it('finds builds by what was typed, shows two side by side, and a comeback finds its build', async () => {
  const { page, faults } = await bench.open();
  const picture = async (name: string): Promise<void> => {
    if (pictures === undefined) return;
    mkdirSync(pictures, { recursive: true });
    for (const [width, height] of [
      [1280, 800],
      [800, 1280],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.screenshot({ path: `${pictures}/${name}-${width}.png` });
    }
    await page.setViewportSize({ width: 1280, height: 800 });
  };
  await page.getByRole('button', { name: /^Look through all builds/u }).click();
  // Nothing is asked of a bench that is not there yet.
  expect(await page.getByText('The bench cannot be reached').count()).toBe(0);
  const rows = page.locator('.shop__builds tbody tr');
  await expect.poll(() => rows.count()).toBe(11);
  await page.getByText('The first change was right in 2 of 2.').waitFor();
  await picture('all');

  const find = page.getByRole('searchbox', { name: 'Find', exact: true });
  await find.fill('ostrander rear');
  await expect.poll(() => rows.count()).toBe(2);
  await find.fill('ax1207k');
  await expect.poll(() => rows.allInnerTexts().then((all) => all.join())).toContain('Front axle 77');
  await find.fill('quokka');
  await page.getByText('None of 11 has “quokka”.').waitFor();
  await picture('none');

  await find.fill('ostrander');
  await expect.poll(() => rows.count()).toBe(2);
  for (const tick of await page.locator('.shop__tick').all()) await tick.click();
  await page.getByRole('button', { name: /^Compare the two/u }).click();
  const compared = page.locator('.compare');
  await compared.getByText('Trial 2').waitFor();
  expect(await compared.locator('thead th').count()).toBe(2);
  expect(await compared.innerText()).toContain('1.27 mm');
  await picture('compare');

  await goTo(page, { at: 'shop', alike: { build: finished[0]?.build, in: 'customer' } });
  await expect.poll(() => rows.count()).toBe(2);
  await page.getByText('Builds of M. Ostrander').waitFor();

  await goTo(page, { at: 'builds' });
  await page.getByRole('searchbox', { name: 'Find the earlier build' }).fill('ax1207k');
  await page.getByRole('button', { name: /Comeback of an earlier build/u }).click();
  await page.getByRole('option', { name: /Front axle 77/u }).click();
  await picture('comeback');
  expect(faults).toEqual([]);
});
