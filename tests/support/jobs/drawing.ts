import type { Mark } from '../../../src/shared/axle/mark/mark.ts';
import { type Assembly, latest } from '../../../src/shared/job/records/build.ts';
import type { MarkResult } from '../../../src/shared/job/records/measurement.ts';
import { flanksLayout } from '../../../src/shared/presentation/drawing/flanks.ts';
import { pointAt } from '../../../src/shared/presentation/drawing/flankShape.ts';
import type { MarkToDraw } from './job.ts';
import type { Person } from './person.ts';
import type { Walk } from './walk.ts';

/** The mark that is seen on this assembly: the next of the job's, or what the axle showed before it came apart. */
async function seenOn({ read, job }: Walk, assembly: Assembly): Promise<MarkToDraw> {
  const { assemblies } = await read();
  const painted = assemblies.filter(
    ({ id, phase, ...one }) =>
      phase === 'trial' && id !== assembly.id && latest({ id, phase, ...one }, 'mark') !== undefined,
  ).length;
  const last = job.marks.at(-1) ?? job.marks[0];
  return assembly.phase === 'trial' ? (job.marks[painted] ?? last) : last;
}

/** Puts both marks where they are seen, says what they ask for, and keeps them. */
export async function drawMark(walk: Walk, assembly: Assembly): Promise<void> {
  const { person } = walk;
  const mark = await seenOn(walk, assembly);
  for (const side of ['drive', 'coast'] as const)
    await (person.manner === 'mouse' ? touch(person, side, mark) : byArrows(person, side, mark));
  const says = { accepted: 'Accept it', change: 'Change shims' }[mark.judgement];
  const choice = person.page.getByRole('radio', { name: says, exact: true });
  if ((await choice.count()) > 0)
    await person.press(person.manner === 'mouse' ? person.page.locator('.choice__option', { hasText: says }) : choice);
  await person.next();
}

/** One touch on the flank puts the mark there, toe at the left, as the screen lays the flanks out. */
async function touch(person: Person, side: 'drive' | 'coast', place: MarkToDraw): Promise<void> {
  const flanks = person.page.locator('.flanks > svg').first();
  const box = await flanks.boundingBox();
  if (box === null) throw new Error('the flanks are not drawn');
  const layout = flanksLayout({
    drive: { flank: 'convex' },
    coast: { flank: 'concave' },
    turned: 'toe-left',
    size: { width: box.width, height: box.height, text: 16 },
    controlRoom: 54,
  });
  const at = pointAt(layout[side], place);
  person.strokes.clicks += 1;
  await person.page.mouse.click(box.x + at.x, box.y + at.y);
}

const arrowStep = 0.02;

async function byArrows(person: Person, side: 'drive' | 'coast', { heel, crown }: MarkToDraw): Promise<void> {
  const { page } = person;
  await person.press(page.getByRole('button', { name: `Draw the ${side} mark` }));
  const middle = page.getByRole('slider', { name: `Middle of the ${side} mark` });
  for (let tabs = 0; tabs < 60 && !(await middle.evaluate((one) => one === document.activeElement)); tabs += 1)
    await person.key('Tab');
  for (let at = 0; at < Math.round(Math.abs(heel) / arrowStep); at += 1)
    await person.key(heel > 0 ? 'ArrowRight' : 'ArrowLeft');
  for (let at = 0; at < Math.round(Math.abs(crown) / arrowStep); at += 1)
    await person.key(crown > 0 ? 'ArrowUp' : 'ArrowDown');
}

/** The same as a result, for whoever cannot draw. */
export async function markFor(walk: Walk, assembly: Assembly): Promise<MarkResult> {
  const { heel, crown, judgement } = await seenOn(walk, assembly);
  const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;
  const mark: Mark = { heel, crown, length: 0.5, height: 0.5, slant_deg: 0, edges: clear };
  return { kind: 'mark', drive: mark, coast: mark, judgement: assembly.phase === 'as-found' ? 'recorded' : judgement };
}
