import { shimPlacesOf } from '../../../src/shared/axle/makeUp.ts';
import { type Check, checkOf } from '../../../src/shared/job/checks/checks.ts';
import type { Assembly } from '../../../src/shared/job/records/build.ts';
import type { CheckId } from '../../../src/shared/job/records/checkIds.ts';
import { packsFor, typedBeside } from './beside.ts';
import { drawMark } from './drawing.ts';
import { fastenerIn, lengthIn, nameTool, placeNames } from './typing.ts';
import type { Walk } from './walk.ts';

/** Answers one check in the way its screen asks for. */
export async function answerCheck(walk: Walk, assembly: Assembly, id: CheckId): Promise<void> {
  const check = checkOf(id, walk.job.makeUp);
  switch (check.method) {
    case 'backlash':
    case 'runout':
    case 'torque':
      return withTheHand(walk);
    case 'feeler':
    // Between shims that hold it nothing moves, and the green button says that no play can be felt.
    case 'play':
      return walk.person.next();
    case 'confirm':
    // Felt by hand unless the indicator is asked for.
    case 'case-play':
      return confirm(walk, assembly, id);
    default:
      return walk.person.manner === 'pedal' ? typedBeside(walk, assembly, id) : typed(walk, assembly, check);
  }
}

async function typed(walk: Walk, assembly: Assembly, check: Check): Promise<void> {
  if (check.method === 'mark') return drawMark(walk, assembly);
  if (check.method === 'set-numbers') await setNumbers(walk);
  else if (check.method === 'shims') await shims(walk, assembly);
  else if (check.method === 'notches') await notches(walk);
  else await oneNumber(walk, check);
  await walk.person.next();
}

/** The hand on the gears does its work; then the green button records, where the bench has not done so by itself. */
async function withTheHand({ person }: Walk): Promise<void> {
  const { page } = person;
  await page.locator('.readout .live__digits', { hasText: /\d/u }).waitFor();
  const turn = page.getByLabel('Nut turned, degrees');
  if ((await turn.count()) > 0) await turnNut(person, turn);
  await page.getByRole('button', { name: 'Simulated hand' }).click();
  const green = page.locator('.button--next:not([disabled])');
  const records = green.filter({ hasText: /^(?:Record|Keep this step)/u });
  // A machine at its limit brings readings in heaps, and what they look like then is refused: it is taken once more.
  const again = green.filter({ hasText: /^Take (?:the turn|station \d+) again/u });
  const recorded = page.getByRole('button', { name: 'Take it anew' });
  await records.or(recorded).or(again).first().waitFor({ timeout: 30_000 });
  if ((await recorded.count()) === 0) await person.next();
}

/** A few degrees of the nut at a time, as somebody creeps up on a sleeve. */
async function turnNut({ manner, type, page }: Walk['person'], turn: ReturnType<Walk['person']['page']['getByLabel']>) {
  const begun = (await page.getByRole('heading', { name: 'Before the first step' }).count()) === 0;
  if (begun && manner !== 'pedal' && (await turn.inputValue()) === '') await type(turn, '5');
}

async function confirm(walk: Walk, assembly: Assembly, id: CheckId): Promise<void> {
  const { person } = walk;
  const { page } = person;
  if (id === 'oil') {
    if (person.manner === 'pedal') return typedBeside(walk, assembly, id);
    await person.type(page.getByLabel('Oil, as the maker names it'), 'HG 90');
    await person.type(page.getByLabel('Amount', { exact: true }), '1.6');
  }
  const counted = page.getByLabel('Bolts counted, each at full torque');
  if ((await counted.count()) > 0 && (await counted.inputValue()) === '') {
    if (person.manner === 'pedal') return typedBeside(walk, assembly, id);
    await person.type(counted, '10');
  }
  await person.next();
}

async function setNumbers({ person }: Walk): Promise<void> {
  await person.type(person.page.getByLabel('On the pinion head'), '41');
  await person.type(person.page.getByLabel('On the ring gear'), '41');
}

/** Notches of both adjusters: where they stood, or one past zero play on one side and two on the other. */
async function notches({ person }: Walk): Promise<void> {
  await person.type(person.page.getByLabel('Ring-gear side, notches'), '1');
  await person.type(person.page.getByLabel('Opposite side, notches'), '2');
}

async function shims(walk: Walk, assembly: Assembly): Promise<void> {
  const { person, job } = walk;
  const packs = await packsFor(walk, assembly);
  const same = person.page.getByRole('button', { name: 'The same packs as before' });
  if ((await same.count()) > 0) await person.press(same);
  for (const place of shimPlacesOf(job.makeUp)) {
    const field = person.page
      .getByRole('group', { name: placeNames[place], exact: true })
      .getByLabel('Pack as clamped', { exact: true });
    const text = lengthIn(job.units, packs[place]);
    if ((await field.inputValue()) !== text) await person.type(field, text);
  }
  await nameTool(person, 'length', job.units);
}

async function oneNumber({ person, job }: Walk, { id, title, method }: Check): Promise<void> {
  const value = job.read[id];
  if (value === undefined) throw new Error(`the job knows no number for ${id}`);
  const kind = method === 'fastener' ? 'fastener' : 'length';
  const text = kind === 'fastener' ? fastenerIn(job.units, value) : lengthIn(job.units, value);
  await person.type(person.page.getByLabel(title, { exact: true }), text);
  await nameTool(person, kind, job.units);
}
