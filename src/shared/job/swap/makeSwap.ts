import { mm } from '../../basics/quantity.ts';
import { type Assembly, assemblyName, packAt } from '../records/build.ts';
import { insideOf } from '../../basics/recorded.ts';
import { type MakeUp, notchOf, type ShimPlace, sideShimSign } from '../../axle/makeUp.ts';
import type { ExpectedSeen, SwapLine, SwapPlanned } from '../records/swap.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { moveRingGear } from '../../axle/arithmetic/sideShims.ts';
import { depthChangeFor } from '../planning/positions.ts';
import type { Place } from '../../axle/plan/sight.ts';

/** Smaller than any shim or micrometer tells apart (mm). */
const nothing = 0.0005;

interface Chosen {
  readonly by: SwapPlanned['chosenBy'];
  /** From where the trial stood. */
  readonly move: Place;
  readonly expected: ExpectedSeen;
}

/**
 * The swap card for a movement: which packs come out of this trial and how thick those are that go in.
 * @returns a Problem where a pack that would have to change was not measured, or would have to be thinner than nothing.
 */
export function makeSwap(
  makeUp: MakeUp,
  trial: Assembly,
  { by, move, expected }: Chosen,
): Result<SwapPlanned, 'pack-not-measured' | 'no-such-shim'> {
  const adjusters = makeUp.caseAdjustment === 'threaded-adjusters';
  const notch = adjusters ? notchOf(makeUp) : undefined;
  // While nobody knows what a notch does, the card counts in millimetres and the backlash says when it is there.
  const notches = notch === undefined ? undefined : Math.round(move.ringAway / notch);
  const changes = [
    { place: 'pinion-depth' as const, change: depthChangeFor(makeUp, move.pinionOut) },
    ...(adjusters ? [] : sideChanges(makeUp, move.ringAway)),
  ].filter(({ change }) => Math.abs(change) >= nothing);
  const lines: SwapLine[] = [];
  for (const { place, change } of changes) {
    const line = lineFor(trial, place, change);
    if (!line.ok) return line;
    lines.push(line.value);
  }
  return ok({
    chosenBy: by,
    pinionOut_mm: move.pinionOut,
    ringAway_mm: notches === undefined || notch === undefined ? move.ringAway : notches * notch,
    lines,
    ...(notches === undefined ? {} : { notches }),
    expected,
  });
}

/** What one side loses the other gains, so that the preload stays. */
function sideChanges(
  makeUp: MakeUp,
  ringAway: number,
): readonly { readonly place: ShimPlace; readonly change: number }[] {
  const { packs } = moveRingGear({ ringSide: mm(0), otherSide: mm(0) }, mm(ringAway), sideShimSign(makeUp));
  return [
    { place: 'ring-side', change: packs.ringSide },
    { place: 'opposite-side', change: packs.otherSide },
  ];
}

function lineFor(
  trial: Assembly,
  place: ShimPlace,
  change: number,
): Result<SwapLine, 'pack-not-measured' | 'no-such-shim'> {
  const pack = packAt(trial, place)?.pack;
  if (pack === undefined) {
    return fail({
      kind: 'pack-not-measured',
      field: place,
      sentence: `The ${placeNames[place]} pack of ${assemblyName(trial).toLowerCase()} was not measured.`,
      remedy: 'Enter its shims by place; the card says from it what goes in.',
    });
  }
  const wanted_mm = Math.round((insideOf(pack) + change) * 1e4) / 1e4;
  if (wanted_mm > 0) return ok({ place, out: pack, wanted_mm });
  return fail({
    kind: 'no-such-shim',
    field: place,
    sentence: `The ${placeNames[place]} pack would have to be ${wanted_mm.toFixed(3)} mm thick.`,
    remedy: 'There is not that much to take out: check the packs as measured and the place of the shim.',
  });
}

/** Places as they stand in a sentence. */
export const placeNames: Readonly<Record<ShimPlace, string>> = {
  'pinion-depth': 'pinion depth',
  'pinion-preload': 'pinion preload',
  'ring-side': 'ring-gear side',
  'opposite-side': 'opposite side',
};
