import type { Page } from 'playwright';
import { type Build, currentAssembly, latest, readNotebook } from '../../../src/shared/job/records/build.ts';
import { type CheckId, checkIds } from '../../../src/shared/job/records/checkIds.ts';
import type { Deed } from '../../../src/shared/job/records/notebook.ts';
import { valueOf } from '../bench/open.ts';
import type { BenchPage } from '../benchPage.ts';
import { goTo } from '../browser.ts';
import { describeAxle, enterLimits, startBuild } from './beginning.ts';
import { answerCheck } from './checks.ts';
import { measurePacks, planNext } from './changing.ts';
import type { Job } from './job.ts';
import { type Manner, type Person, personAt, type Strokes } from './person.ts';

/** A job under way: who does it, on which bench, and what is in the notebook. */
export interface Walk {
  readonly bench: BenchPage;
  readonly person: Person;
  readonly job: Job;
  readonly build: string;
  /** Checks that were answered for the person, because the pedal cannot write numbers. */
  readonly helped: Set<CheckId>;
  readonly read: () => Promise<Build>;
  readonly write: (deed: Deed) => Promise<void>;
}

export interface Walked {
  readonly build: Build;
  readonly strokes: Strokes;
  /** Of these, what typing the spec sheet took: a sheet that is in the library is one choice. */
  readonly onLimits: Strokes;
  /** Checks that somebody else had to write down. */
  readonly helped: readonly CheckId[];
  /** The green actions that were pressed, in order. */
  readonly path: readonly string[];
  readonly faults: readonly string[];
}

const technician = 'A';

/** Does a whole job by what the green button asks, from the door to the certificate. */
export async function walkJob(bench: BenchPage, job: Job, manner: Manner = 'mouse'): Promise<Walked> {
  const { page, faults } = await bench.open();
  const person = personAt(page, manner);
  const path: string[] = [];
  const onLimits: Strokes = { clicks: 0, keys: 0 };
  try {
    const walk = walkOn(bench, person, job, await begin(bench, person, job));
    while (!(await isCertified(walk))) await step(walk, path, onLimits);
    return { build: await walk.read(), strokes: person.strokes, onLimits, helped: [...walk.helped], path, faults };
  } catch (error) {
    const words = await page.locator('.words').innerText();
    throw new Error(`after ${path.slice(-6).join(' / ')}, where the screen says: ${words}`, { cause: error });
  } finally {
    await page.context().close();
  }
}

/** Does what one screen asks, and waits until there is something else to do. */
async function step(walk: Walk, path: string[], onLimits: Strokes): Promise<void> {
  const { page } = walk.person;
  const screen = await screenOf(page);
  path.push(`${screen.at}${screen.check === undefined ? '' : ` ${screen.check}`}: ${screen.green}`);
  if (path.length > 150 || isStuck(path)) throw new Error('the job goes round in circles');
  const { clicks, keys } = walk.person.strokes;
  await answer(walk, screen);
  if (screen.at === 'limits') {
    onLimits.clicks += walk.person.strokes.clicks - clicks;
    onLimits.keys += walk.person.strokes.keys - keys;
  }
  await settled(page, screen);
}

const isStuck = (path: readonly string[]): boolean => {
  const last = path.at(-1);
  return path.length > 5 && path.slice(-5).every((one) => one === last);
};

/** Starts the build at the door, or beforehand with axle and limits, and goes to it. */
async function begin(bench: BenchPage, person: Person, job: Job): Promise<string> {
  const { page } = person;
  await page.locator('.strip-gauge').first().waitFor();
  // The units are the bench's, and may be those of the job before.
  const inch = (await page.locator('.strip__keys').innerText()).includes('inch');
  if (inch !== (job.units === 'inch')) await page.keyboard.press('u');
  if (job.described === 'at the screens') {
    await startBuild(person, job.title, technician);
    await page.locator('h1', { hasText: 'The axle' }).waitFor();
    return String((await routeOf(page))['build']);
  }
  const { id } = valueOf(await bench.service.answers['builds.start']({ title: job.title, technician }));
  for (const deed of [
    { kind: 'described', makeUp: job.makeUp },
    { kind: 'limits-set', specSheet: job.limits },
  ] as const)
    valueOf(await bench.service.answers['builds.write']({ build: id, by: technician, deed }));
  await goTo(page, { at: 'build', build: id });
  return id;
}

function walkOn(bench: BenchPage, person: Person, job: Job, build: string): Walk {
  const { answers } = bench.service;
  return {
    bench,
    person,
    job,
    build,
    helped: new Set(),
    read: async () => {
      const notebook = valueOf(await answers['builds.read']({ build }));
      return readNotebook(build, notebook.entries);
    },
    write: async (deed) => void valueOf(await answers['builds.write']({ build, by: technician, deed })),
  };
}

const isCertified = async (walk: Walk): Promise<boolean> => (await walk.read()).certificates.length > 0;

interface ScreenSeen {
  readonly at: string;
  readonly check: CheckId | undefined;
  readonly green: string;
}

const routeOf = (page: Page): Promise<Record<string, unknown>> =>
  page.evaluate(() => (history.state ?? { at: 'builds' }) as Record<string, unknown>);

/** Where the person stands, and what the green button says there. */
async function screenOf(page: Page): Promise<ScreenSeen> {
  await page.locator('main h1').waitFor();
  const { at, check } = await routeOf(page);
  const words = await page.locator('.button--next .button__words').allInnerTexts();
  return { at: String(at), check: checkIds.find((id) => id === check), green: words[0] ?? 'nothing' };
}

/** What was pressed is answered as soon as the screen has something else to ask. */
async function settled(page: Page, before: ScreenSeen): Promise<void> {
  for (let tries = 0; tries < 40; tries += 1) {
    const now = await screenOf(page);
    if (now.at !== before.at || now.check !== before.check || now.green !== before.green) return;
    await page.waitForTimeout(50);
  }
}

/** Does what the screen asks for. */
async function answer(walk: Walk, screen: ScreenSeen): Promise<void> {
  const { person } = walk;
  if (screen.check !== undefined && screen.at === 'check') {
    const assembly = currentAssembly(await walk.read());
    if (assembly === undefined) throw new Error('a check without an assembly');
    const done = latest(assembly, screen.check) !== undefined;
    return done ? person.next() : answerCheck(walk, assembly, screen.check);
  }
  if (screen.at === 'axle') return describeAxle(person, walk.job);
  if (screen.at === 'limits') return enterLimits(person, walk.job);
  if (screen.at === 'plan') return planNext(walk);
  if (screen.at === 'swap') return measurePacks(walk);
  return person.next();
}
