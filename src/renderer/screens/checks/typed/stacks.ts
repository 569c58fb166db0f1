import { type Build, packAt } from '../../../../shared/job/records/build.ts';
import type { ShimPlace } from '../../../../shared/axle/makeUp.ts';
import type { DrawnPack, StacksInput } from '../../../../shared/presentation/drawing/shimStacks.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import { type PackDraft, placeWords, readPack } from './shims.ts';

const sidePlaces: readonly ShimPlace[] = ['ring-side', 'opposite-side'];

/** The packs as they are typed beside those of the assembly before, as the stacks are drawn. */
export function stacksView(
  build: Build,
  assembly: string,
  drafts: readonly PackDraft[],
): Pick<StacksInput, 'packs' | 'sides'> {
  const packs = drafts.map((draft) => ({ place: draft.place, ...drawnPack(build, assembly, draft) }));
  const sides = packs.filter(({ place }) => sidePlaces.includes(place));
  return { packs, ...(sides.length === sidePlaces.length ? { sides: sumOf(sides) } : {}) };
}

function drawnPack(build: Build, assembly: string, draft: PackDraft): DrawnPack {
  const at = build.assemblies.findIndex((one) => one.id === assembly);
  const before = build.assemblies
    .slice(0, at)
    .map((one) => packAt(one, draft.place))
    .findLast((pack) => pack !== undefined);
  const now = readPack(draft);
  return {
    name: placeWords[draft.place],
    ...(before === undefined ? {} : { before_mm: insideOf(before.pack) }),
    ...(now.ok ? { now_mm: insideOf(now.value.pack) } : {}),
  };
}

/** The two sides together; a sum that lacks one of them says nothing. */
function sumOf(sides: readonly DrawnPack[]): NonNullable<StacksInput['sides']> {
  const sum = (values: readonly (number | undefined)[]): number | undefined =>
    values.reduce((all, value) => (all === undefined || value === undefined ? undefined : all + value), 0);
  const before = sum(sides.map(({ before_mm }) => before_mm));
  const now = sum(sides.map(({ now_mm }) => now_mm));
  return { ...(before === undefined ? {} : { before_mm: before }), ...(now === undefined ? {} : { now_mm: now }) };
}
