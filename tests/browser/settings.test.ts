import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openLoopback } from '../../src/main/hosts/loopback/host.ts';
import { listPageFiles } from '../../src/main/hosts/pageFiles.ts';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, buildInTrial, openBenchPage } from '../support/benchPage.ts';
import { openPage } from '../support/browser.ts';
import { temporaryFolder } from '../support/folder.ts';
import { show } from './everyScreen.ts';

const screens = join(import.meta.dirname, '..', '..', 'out', 'renderer');

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());
const settings = async () => valueOf(await bench.service.answers['settings.read']({}));

it('finds its settings again at another port, and tells a second page of each change', async () => {
  const { page } = await bench.open();
  await page.locator('main h1').waitFor();
  await page.keyboard.press(',');
  await page.getByRole('button', { name: 'Learn another' }).click();
  await page.keyboard.press('m');
  await page.getByText('M is for “Just measure”').waitFor();
  await page.getByRole('button', { name: 'Learn another' }).click();
  await page.keyboard.press('F9');
  await page.getByRole('button', { name: 'Pedal sends F9' }).waitFor();
  await page.getByText('Dark', { exact: true }).click();
  await expect.poll(settings).toMatchObject({ pedalKey: 'F9', theme: 'dark' });

  const other = valueOf(await openLoopback({ service: bench.service, files: valueOf(listPageFiles(screens)) }));
  expect(other.port).not.toBe(bench.host.port);
  const { page: second, faults } = await openPage(bench.browser, other.link);
  await second.locator('[data-theme="dark"]').waitFor();
  await second.keyboard.press(',');
  await second.getByRole('button', { name: 'Pedal sends F9' }).waitFor();
  await second.getByText('Inch', { exact: true }).click();
  await page.getByRole('dialog').getByRole('radio', { name: 'Inch', checked: true }).waitFor();
  expect(faults).toEqual([]);
  await second.context().close();
  await page.context().close();
  await other.close();
  valueOf(await bench.service.answers['settings.change']({ change: { units: 'metric', theme: 'system' } }));
});

it('takes over what a page kept by itself in an earlier version, but for what the bench has already', async () => {
  const { page, faults } = await bench.open();
  await page.evaluate(() =>
    localStorage.setItem(
      'axlewright-session',
      '{"page":"letter","pedalKey":"F8","spoken":"perhaps","technician":"Ada"}',
    ),
  );
  await page.reload();
  await expect.poll(settings).toMatchObject({ page: 'letter', technician: 'Ada', pedalKey: 'F9' });
  expect(await settings()).not.toHaveProperty('spoken');
  await expect.poll(() => page.evaluate(() => localStorage.getItem('axlewright-session'))).toBeNull();
  expect(faults).toEqual([]);
  await page.context().close();
});

it('hands over to somebody else in one step, who signs from then on and is offered by name', async () => {
  const { build } = await buildInTrial(bench.service);
  const { page, faults } = await bench.open();
  await show(page, { at: 'notes', build });
  await page.getByRole('button', { name: 'At the stand:' }).click();
  await page.getByLabel('Somebody else').fill('Technician B');
  await page.getByRole('button', { name: 'Hand over', exact: true }).click();
  await page.getByRole('button', { name: 'At the stand: Technician B' }).waitFor();
  const picture = process.env['SETTINGS_PICTURE'];
  await page.getByRole('button', { name: 'At the stand:' }).click();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'who.png') });
  await page.keyboard.press('Escape');
  await page.getByRole('textbox').last().fill('Whines at 80 km/h');
  await page.keyboard.press('PageDown');
  await expect
    .poll(async () => valueOf(await bench.service.answers['builds.read']({ build })).entries.at(-1))
    .toMatchObject({ by: 'Technician B', deed: { kind: 'noted' } });
  expect(faults).toEqual([]);
  await page.context().close();
});

it('backs up to the folder that was chosen, offers what lies there, and puts nothing over records', async () => {
  await buildInTrial(bench.service);
  const stick = temporaryFolder();
  const { page, faults } = await bench.open();
  await page.locator('main h1').waitFor();
  await page.keyboard.press(',');
  await page.getByText('the records are on this disk alone').waitFor();
  await page.getByRole('button', { name: 'Folder for backups' }).click();
  await page.getByLabel('Path of the folder, on this computer').fill('stick');
  await page.getByRole('button', { name: 'Back up there' }).click();
  await page.getByText('"stick" is not a full path.').waitFor();
  await page.getByLabel('Path of the folder, on this computer').fill(stick);
  await page.getByRole('button', { name: 'Back up there' }).click();
  await page.getByText('None has been made').waitFor();
  await page.getByRole('button', { name: 'Done' }).last().click();
  await page.getByRole('button', { name: 'Back up now' }).click();
  await page.getByText('Nothing has been recorded since').waitFor();
  expect(readdirSync(stick).filter((name) => name.endsWith('.backup'))).toHaveLength(1);
  const picture = process.env['SETTINGS_PICTURE'];
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'backup.png') });
  await page.getByRole('button', { name: 'Bring a backup back' }).click();
  await page.getByLabel('Path of the folder with the backups').fill(stick);
  await page.getByRole('button', { name: 'Look there' }).click();
  await page.getByRole('button', { name: /^Bring it back/u }).click();
  await page.getByText('a backup is never put over records').waitFor();
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'bringBack.png') });
  expect(faults).toEqual([]);
  await page.context().close();
});

it('says what it is, and whether there is a newer one only when it is asked', async () => {
  const { page, faults } = await bench.open();
  await page.locator('main h1').waitFor();
  await page.keyboard.press(',');
  await page.getByText('Axlewright test. Free software under the MIT licence.').waitFor();
  const ask = page.getByRole('button', { name: 'Is there a newer version?' });
  expect(await ask.isDisabled()).toBe(true);
  await page.getByLabel('List of versions').fill(join(import.meta.dirname, '..', '..', 'docs', 'versions.json'));
  await ask.click();
  await page.getByText(/^\d+\.\d+\.\d+ of .* is newer\. Whoever looks after this computer installs it\.$/u).waitFor();
  await page.getByLabel('List of versions').fill('/no/such/list.json');
  await ask.click();
  await page.getByText('/no/such/list.json could not be read (ENOENT).').waitFor();
  const picture = process.env['SETTINGS_PICTURE'];
  if (picture !== undefined) await page.screenshot({ path: join(picture, 'about.png') });
  await expect.poll(settings).toMatchObject({ versionsAt: '/no/such/list.json' });
  expect(faults).toEqual([]);
  await page.context().close();
});
