// `npm run pictures`: every screen in a real browser, on the demo's build, in five sizes, light, dark and grey, into
// out/pictures with a contact sheet each and a table of blank shares and letters. Look at them. `npm run pictures -- wide-light`
// takes the looks named (the tables keep what earlier runs took), `only=shop,plan` those screens; `npm run pictures -- docs` writes those that the documents show into docs/pictures.
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { openBench } from '../../../src/main/bench/bench.ts';
import { doTheJob } from '../../../src/main/cli/demo/job.ts';
import { technician as by, title } from '../../../src/main/cli/demo/scenario.ts';
import { createTechnician } from '../../../src/main/cli/demo/technician.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { openLoopback } from '../../../src/main/hosts/loopback/host.ts';
import { listPageFiles } from '../../../src/main/hosts/pageFiles.ts';
import { openSimulation } from '../../../src/main/hosts/simulatedBench.ts';
import { plugInSimulated } from '../../../src/main/hosts/simulatedGaugeRecords.ts';
import type { Notebook } from '../../../src/shared/job/records/notebook.ts';
import { readNotebook } from '../../../src/shared/job/records/build.ts';
import { valueOf } from '../bench/open.ts';
import { renderedPhoto } from '../photos.ts';
import { buildForPlan, putInDrawer } from '../planBuild.ts';
import { goTo, launchBrowser, openPage } from '../browser.ts';
import { contactSheets, type TakenPicture } from './contactSheet.ts';
import { axeFaults, layoutFaults } from './layoutFaults.ts';
import { least_px, looks, type PictureLook, seeWith } from './looks.ts';
import { measured } from './measured.ts';
import { smallPng } from './smallPng.ts';
import { axeTable, blankTable, faultList, isAskedOfAxe, letterTable } from './tables.ts';
import { portsAlike } from '../specialGauges.ts';
import { takeAtWork } from './atWork.ts';
import { together } from './together.ts';
import { specialScreens, takeSpecial } from './special.ts';

const root = join(import.meta.dirname, '..', '..', '..');
const only = process.argv
  .find((word) => word.startsWith('only='))
  ?.slice('only='.length)
  .split(',');
const wanted = process.argv.slice(2).filter((word) => !word.startsWith('only='));
const forDocs = wanted[0] === 'docs';
const out = forDocs ? join(root, 'docs', 'pictures') : join(root, 'out', 'pictures');
const unknown = forDocs ? undefined : wanted.find((name) => !(name in looks));
if (unknown !== undefined) {
  process.stderr.write(`No look is called ${unknown}. There are ${Object.keys(looks).join(', ')}.\n`);
  process.exit(2);
}
/** What README and docs/ show. */
const inDocs = new Set(['bench', 'backlash', 'photo', 'meaning', 'trials', 'plan', 'swap']);
const wants = (name: string): boolean => (forDocs ? inDocs.has(name) : (only?.includes(name) ?? true));
mkdirSync(out, { recursive: true });
const say = (words: string): void => void process.stderr.write(`${words}\n`);

const simulation = await openSimulation('hurried');
const service = valueOf(
  openBench({
    folder: mkdtempSync(join(tmpdir(), 'axlewright-pictures-')),
    clock: systemClock,
    version: '0.1.0',
    simulation,
    ports: portsAlike,
  }),
);
const gauges = valueOf(await plugInSimulated(service, simulation));
const host = valueOf(await openLoopback({ service, files: valueOf(listPageFiles(join(root, 'out', 'renderer'))) }));
const browser = await launchBrowser();

const chosen = Object.entries(looks).filter(([name]) =>
  forDocs ? name === 'wide-light' : wanted.length === 0 || wanted.includes(name),
);
const taken: TakenPicture[] = [];
const take = async (page: Page, name: string, look = 'wide-light'): Promise<void> => {
  if (!wants(name)) return;
  const picture = await page.screenshot();
  const file = join(out, forDocs ? `${name}.png` : `${look}-${name}.png`);
  writeFileSync(file, forDocs ? smallPng(picture) : picture);
  say(`  ${look} ${name}`);
  if (forDocs) return;
  // Every theme has the layout of the light one; grey is for the eye.
  const faults = look.endsWith('-light') ? await layoutFaults(page, least_px(look)) : [];
  const broken = isAskedOfAxe(look) ? await axeFaults(page) : [];
  taken.push({ look, name, file, faults: [...faults, ...broken], ...(await measured(page, picture)) });
};

// A newcomer's start: nothing is on the bench yet.
for (const [look, how] of chosen) {
  const { page, faults } = await openInLook(how);
  await goTo(page, { at: 'builds' });
  await take(page, 'builds-first', look);
  await close(page, faults);
}

say('doing the job on the simulated axle (about a minute) …');
let notebook: Notebook | undefined;
const technician = await createTechnician(service, title, by, (written) => (notebook = written));
await doTheJob({ technician, gauges, simulation });
if (notebook === undefined) throw new Error('the job wrote nothing');
const build = readNotebook(notebook.id, notebook.entries);
const assembly = (phase: string, number = 1): string =>
  build.assemblies.find((one) => one.phase === phase && one.number === number)?.id ?? '';

const rendered = renderedPhoto(3);
const { photo: stored } = valueOf(
  await service.answers['photos.keep']({
    build: build.id,
    by,
    assembly: assembly('trial', 2),
    from: 'folder',
    jpeg_base64: rendered.jpeg.toString('base64'),
  }),
);

// The first page of its certificate, 150 pixels to the inch of A4.
if (forDocs) {
  const { pages } = valueOf(
    await service.answers['certificate.pictures']({
      build: build.id,
      page: 'a4',
      units: 'metric',
      pixelsWide: 1240,
      first: true,
    }),
  );
  writeFileSync(join(out, 'certificate.png'), smallPng(Buffer.from(pages[0] ?? '', 'base64')));
}

const toPlan = await buildForPlan(service);
await putInDrawer(service, [0.9, 0.5, 0.3, 0.2, 0.1, 0.05]);

const at = (where: string, more: object = {}) => ({ at: where, build: build.id, ...more });
const check = (name: string, phase = 'trial', number = 2) =>
  at('check', { assembly: assembly(phase, number), check: name });
const screens: Readonly<Record<string, object>> = {
  builds: { at: 'builds' },
  axle: at('axle'),
  limits: at('limits'),
  notes: at('notes'),
  'as-found': at('build', { assembly: assembly('as-found') }),
  'trial-1': at('build', { assembly: assembly('trial', 1) }),
  'trial-2': at('build', { assembly: assembly('trial', 2) }),
  final: at('build', { assembly: assembly('final') }),
  backlash: check('backlash'),
  runout: check('ring-gear-runout', 'trial', 1),
  torque: check('pinion-torque'),
  typed: check('cap-torque'),
  shims: check('shims'),
  depth: at('sums', { assembly: assembly('trial', 2), sum: 'depth' }),
  mark: check('mark', 'trial', 1),
  meaning: at('meaning', { assembly: assembly('trial', 2) }),
  experience: at('experience'),
  painting: at('painting', { assembly: assembly('trial', 2) }),
  cut: at('cut'),
  trials: at('trials'),
  'photo-ways': at('photo', { assembly: assembly('trial', 2), flank: 'drive', place: 0 }),
  settle: at('settle', { assembly: assembly('trial', 1), check: 'backlash' }),
  'open-trial': at('assemble', { phase: 'trial' }),
  certificate: at('certificate'),
  gauges: { at: 'gauges' },
};

for (const [look, how] of chosen) {
  const { page, faults } = await openInLook(how);
  for (const [name, route] of Object.entries(screens)) {
    if (!wants(name)) continue;
    await goTo(page, route);
    if (name === 'certificate') await previewDrawn(page);
    await take(page, name, look);
  }
  if (wants('photo')) await photo(page, look);
  if (['plan', 'swap', 'drawer'].some(wants)) await planned(page, look);
  await takeAtWork({ page, check, wants, take: (name) => take(page, name, look) });
  await close(page, faults);
}

if (!forDocs) {
  const special = await specialScreens(service, gauges.indicator);
  for (const [look, how] of chosen) {
    const { page, faults } = await openInLook(how);
    await takeSpecial(special, page, wants, (name) => take(page, name, look));
    await close(page, faults);
  }
  await special.end();
  const all = together(out, taken);
  const looked = new Set(taken.map(({ look }) => look));
  await contactSheets(
    browser,
    out,
    all.filter(({ look }) => looked.has(look)),
  );
  const tables = [axeTable(all), blankTable(all), letterTable(all), faultList(all)].join('\n\n');
  writeFileSync(join(out, 'tables.md'), `${tables}\n`);
  say(tables);
}

/** The first page is drawn by the bench; a picture of its empty place is told. */
async function previewDrawn(page: Page): Promise<void> {
  const drawn = page.locator('img.preview__page').waitFor({ timeout: 20_000 });
  await drawn.catch(() => say('  the preview of the certificate did not come'));
}

async function openInLook({ eyes, ...size }: PictureLook) {
  const opened = await openPage(browser, host.link, size);
  if (eyes !== undefined) await seeWith(opened.page, eyes);
  return opened;
}

async function close(page: Page, faults: readonly string[]): Promise<void> {
  if (faults.length > 0) throw new Error(`the page complained: ${faults.join(' | ')}`);
  await page.context().close();
}

/** A photo with its corners tapped. It is rendered, not taken: docs/reading-the-mark.md says so beside it. */
async function photo(page: Page, look: string): Promise<void> {
  await goTo(page, at('photo', { assembly: assembly('trial', 2), flank: 'drive', place: 0, photo: stored.sha256 }));
  const box = await page.locator('.photo__picture').boundingBox();
  if (box === null) throw new Error('the photo is not shown');
  for (const [x, y] of rendered.taken.corners)
    await page.mouse.click(box.x + (x * box.width) / stored.width, box.y + (y * box.height) / stored.height);
  await page.locator('[data-read="numbers"]').waitFor();
  await page.waitForTimeout(300);
  await take(page, 'photo', look);
}

/** The plan for a trial whose drive mark is hard at root and toe, the card it leads to, and the shop's shims. */
async function planned(page: Page, look: string): Promise<void> {
  await goTo(page, { at: 'plan', build: toPlan.build });
  await page.locator('.plan__headline', { hasText: /^Pinion/u }).waitFor({ timeout: 240_000 });
  await page.waitForTimeout(300);
  await take(page, 'plan', look);
  await page.locator('.button--next').click();
  await page.getByLabel('Pinion depth as measured').fill('1.42');
  await take(page, 'swap', look);
  await goTo(page, { at: 'drawer', build: toPlan.build });
  await take(page, 'drawer', look);
}

await browser.close();
await host.close();
await service.close();
say(`pictures are in ${out}`);
