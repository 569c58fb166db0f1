import { readNotebook } from '../../shared/job/records/build.ts';
import type { DeedOf, Notebook } from '../../shared/job/records/notebook.ts';
import { makeSwap } from '../../shared/job/swap/makeSwap.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';

/**
 * A swap card as the bench reckons it. A screen says where the gears are to go and what it foresees there; which packs come
 * out and how thick those are that go in follows from the packs that were measured, and is worked out anew before it is
 * written, as measurements are. What is foreseen stays the screen's own word: it is compared with what is read later.
 */
export function swapReckoned(notebook: Notebook, deed: DeedOf<'swap-planned'>): Result<DeedOf<'swap-planned'>> {
  const { makeUp, assemblies } = readNotebook(notebook.id, notebook.entries);
  const trial = assemblies.find(({ id }) => id === deed.assembly);
  if (makeUp === undefined || trial === undefined) return fail(notDescribed);
  const { chosenBy, pinionOut_mm, ringAway_mm, expected } = deed.swap;
  const move = { pinionOut: pinionOut_mm, ringAway: ringAway_mm };
  const swap = makeSwap(makeUp, trial, { by: chosenBy, move, expected });
  return swap.ok ? ok({ ...deed, swap: swap.value }) : swap;
}

const notDescribed: Problem = {
  kind: 'not-described',
  field: 'deed.assembly',
  sentence: 'No swap card can be made for an axle that is not described.',
  remedy: 'Describe the axle first: where its shims sit decides which packs change.',
};
