import type { MakeUp } from '../makeUp.ts';
import type { Mark } from './mark.ts';
import { alongFace } from './meaning/alongFace.ts';
import { coastBesideDrive, farApart } from './meaning/coast.ts';
import { hardLines } from './meaning/hardLines.ts';
import { height } from './meaning/height.ts';
import { length } from './meaning/length.ts';
import { places } from './meaning/places.ts';
import type { Meaning, SeenAt } from './meaning/sentence.ts';
import { slant } from './meaning/slant.ts';
import { tellsNothing } from './meaning/tellsNothing.ts';
import { usedSet } from './meaning/usedSet.ts';

export type { Meaning, MeaningKind, SeenAt, Standing } from './meaning/sentence.ts';

interface MarksToRead {
  /** The marks at each place round the gear, the one to go by first. */
  readonly seen: readonly SeenAt[];
  /** The set's own marks, as found before anything was loosened. */
  readonly asFound?: { readonly drive?: Mark; readonly coast?: Mark };
}

/**
 * What the marks mean on this gear set, the most telling first: height, along the face, coast beside drive and whether the
 * flanks agree, differences between places, slant, hard lines, and what no shim will centre. Sentences, no shims: how much to move is the plan's affair. Each says where it comes from, and where
 * sources disagree it says that.
 */
export function meaningOf({ seen, asFound }: MarksToRead, makeUp: MakeUp): readonly Meaning[] {
  const [first] = seen;
  if (first === undefined) return [];
  const used = makeUp.gearSet === 'used';
  const untold = tellsNothing(first);
  // Nothing is read out of a mark that the plan would not read either.
  if (untold.length > 0) return [...untold, ...places(seen), ...hardLines(first, used ? asFound : {})];
  return [
    ...height(first, used, asFound?.drive),
    ...(used ? usedSet(first, asFound, makeUp) : []),
    ...(used ? [] : alongFace(first, makeUp)),
    ...coastBesideDrive(first, used),
    ...places(seen),
    ...slant(first, makeUp),
    ...hardLines(first, used ? asFound : {}),
    ...(used && asFound?.drive !== undefined ? [] : farApart(first, makeUp)),
    ...(used ? [] : length(first)),
  ];
}
