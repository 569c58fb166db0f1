import type { Swap } from '../../../src/shared/job/records/build.ts';
import { lengthIn, nameTool, placeNames } from './typing.ts';
import type { Walk } from './walk.ts';

/** The plan is weighed first; then its card is what the green button makes. */
export async function planNext({ person }: Walk): Promise<void> {
  await person.page.locator('.button--next:not([disabled])').waitFor();
  await person.next();
}

/** The packs the card asks for, measured as asked, until the card has nothing to ask. */
export async function measurePacks(walk: Walk): Promise<void> {
  const card = (await walk.read()).swaps.at(-1);
  if (card === undefined) throw new Error('no swap card was made');
  const open = card.lines.length > 0 && card.measured === undefined;
  if (open) await (walk.person.manner === 'pedal' ? packsBeside(walk, card) : packsTyped(walk, card));
  if (!open || walk.person.manner !== 'pedal') await walk.person.next();
}

async function packsTyped({ person, job }: Walk, card: Swap): Promise<void> {
  for (const line of card.lines) {
    const field = person.page.getByLabel(`${placeNames[line.place]} as measured`, { exact: true });
    await person.type(field, lengthIn(job.units, line.wanted_mm));
  }
  await nameTool(person, 'length', job.units);
}

/** The pedal writes no numbers: somebody else keeps the packs. */
async function packsBeside(walk: Walk, card: Swap): Promise<void> {
  walk.helped.add('shims');
  await walk.write({
    kind: 'packs-measured',
    swap: card.id,
    how: { kind: 'typed', tool: 'Micrometer', resolution: { value: 0.01, unit: 'mm' } },
    packs: card.lines.map(({ place, wanted_mm }) => ({ place, each: [], pack: { value: wanted_mm, unit: 'mm' } })),
  });
}
