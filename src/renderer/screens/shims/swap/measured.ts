import type { UnitSystem } from '../../../../shared/basics/show.ts';
import type { Swap } from '../../../../shared/job/records/build.ts';
import { insideOf, lengthTypedSchema } from '../../../../shared/basics/recorded.ts';
import type { ShimDrawer } from '../../../../shared/job/records/drawer.ts';
import type { ShimPack } from '../../../../shared/job/records/measurement.ts';
import { packFault } from '../../../../shared/job/swap/packFault.ts';
import { draftOf, emptyDraft, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { stackOf } from './stacks.ts';

/** The fields of a card: what was measured already, or nothing yet. */
export const measuredDrafts = (swap: Swap, units: UnitSystem): readonly QuantityDraft[] =>
  swap.lines.map(({ place }) => {
    const known = swap.measured?.packs.find((pack) => pack.place === place);
    return known === undefined ? emptyDraft('length', units) : draftOf(known.pack);
  });

const typedIn = (draft: QuantityDraft | undefined): ShimPack['pack'] | undefined => {
  if (draft === undefined || draft.text.trim() === '') return undefined;
  const read = readDraft(draft, 'length', 'pack');
  return read.ok ? lengthTypedSchema.parse(read.value) : undefined;
};

/** What is wrong with each pack that has been typed. */
export const faultsIn = (
  swap: Swap,
  drafts: readonly QuantityDraft[],
  units: UnitSystem,
): readonly (string | undefined)[] =>
  swap.lines.map((line, index) => {
    const typed = typedIn(drafts[index]);
    return typed === undefined ? undefined : packFault(insideOf(typed), line, swap.lines, units);
  });

/** Every pack as measured, with the shims the drawer gave for it; nothing while one is missing. */
export function readMeasured(
  swap: Swap,
  drafts: readonly QuantityDraft[],
  drawer: ShimDrawer | undefined,
): readonly ShimPack[] | undefined {
  const packs = swap.lines.flatMap((line, index): ShimPack[] => {
    const pack = typedIn(drafts[index]);
    if (pack === undefined) return [];
    const stack = stackOf(drawer, line);
    const shims = stack?.fits === true ? stack.stack.shims : [];
    return [{ place: line.place, each: shims.slice(0, 20).map((value) => ({ value, unit: 'mm' })), pack }];
  });
  return packs.length === swap.lines.length && packs.length > 0 ? packs : undefined;
}
