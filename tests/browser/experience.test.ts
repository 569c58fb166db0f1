import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Page } from 'playwright';
import { type BenchPage, openBenchPage } from '../support/benchPage.ts';
import { valueOf } from '../support/bench/open.ts';
import { goTo } from '../support/browser.ts';
import { finishedBuilds } from '../support/finishedBuilds.ts';
import { buildForPlan } from '../support/planBuild.ts';
import { backlashOf } from '../support/records/trials.ts';

let bench: BenchPage;
let build: string;
let earlier: readonly { readonly build: string; readonly second: string }[];

beforeAll(async () => {
  bench = await openBenchPage();
  earlier = await finishedBuilds(bench.service, 3);
  ({ build } = await buildForPlan(bench.service));
});
afterAll(() => bench.close());

const reason = (page: Page) => page.getByText(/^What is usual comes from/u);
const planned = (page: Page) => page.locator('.plan__headline', { hasText: /^Pinion depth/u }).waitFor();
const said = (page: Page) => page.locator('.experience__said');

it('begins the plan from finished builds, of which one can be left out and all switched off', async () => {
  const { page, faults } = await bench.open();
  await goTo(page, { at: 'plan', build });
  await planned(page);
  await page.getByText('What is usual comes from 3 earlier builds of this axle').waitFor();

  await page.getByRole('button', { name: 'Earlier builds' }).click();
  await said(page).filter({ hasText: 'The plan begins from 3 earlier builds of this axle.' }).waitFor();
  expect(await page.locator('.experience__build').count()).toBe(3);
  await page
    .getByRole('button', { name: /^Leave it out/u })
    .first()
    .click();
  await said(page).filter({ hasText: 'The plan begins from 2 earlier builds of this axle.' }).waitFor();

  await page.getByText('Let the plan use them').click();
  await said(page).filter({ hasText: 'The plan leaves out 2 earlier builds of this axle.' }).waitFor();
  await page.getByRole('button', { name: /^To the plan/u }).click();
  await planned(page);
  expect(await reason(page).count()).toBe(0);
  expect(faults).toEqual([]);
});

it('drops a build that was altered after it was finished', async () => {
  const { page, faults } = await bench.open();
  const [altered] = earlier;
  if (altered === undefined) throw new Error('no build was finished');
  const deed = backlashOf(altered.second, 0.24);
  valueOf(await bench.service.answers['builds.write']({ build: altered.build, by: 'R. Lindqvist', deed }));
  await goTo(page, { at: 'experience', build });
  await page.locator('.experience__build').first().waitFor();
  expect(await page.locator('.experience__build').count()).toBe(2);
  expect(faults).toEqual([]);
});
