import { type Length, mm } from '../../../../shared/basics/quantity.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { ok, type Result } from '../../../../shared/basics/result.ts';
import { calibrateNotch, notchesFor } from '../../../../shared/axle/arithmetic/adjusters.ts';
import {
  packsFromPlay,
  type PreloadSplit,
  type SidePacks,
  type SideSign,
} from '../../../../shared/axle/arithmetic/sideShims.ts';
import { setOf } from '../../../../shared/axle/setOf.ts';
import { backlashRates } from '../../../../shared/job/planning/positions.ts';

/** Backlash at the heel for each mm the ring gear goes away, from the mesh model; nothing where there is no such set. */
export function backlashPerAway(makeUp: MakeUp): number | undefined {
  const model = setOf(makeUp);
  return model.ok ? backlashRates(model.value).ringAway : undefined;
}

/** What was read for both side packs. Packs that were not in while it was read are 0. */
interface SideReadings {
  readonly endPlay: Length | undefined;
  readonly travelToMesh: Length | undefined;
  readonly ringSide: Length | undefined;
  readonly otherSide: Length | undefined;
  readonly backlash: Length | undefined;
  readonly preload: Length | undefined;
  readonly split: PreloadSplit;
  readonly perAway: number | undefined;
  readonly sign: SideSign;
}

/** Both packs; nothing while a reading is missing. */
export function packsFor(read: SideReadings): Result<SidePacks> | undefined {
  const { endPlay, travelToMesh, ringSide, otherSide, backlash, preload, split, perAway, sign } = read;
  if (endPlay === undefined || travelToMesh === undefined) return undefined;
  if (backlash === undefined || perAway === undefined) return undefined;
  const inPlace = { ringSide: ringSide ?? mm(0), otherSide: otherSide ?? mm(0) };
  return packsFromPlay(
    { endPlay, travelToMesh, inPlace },
    { backlash, backlashPerAway: perAway, preload: preload ?? mm(0), split, sign },
  );
}

interface NotchReadings {
  readonly moved: number | undefined;
  readonly before: Length | undefined;
  readonly after: Length | undefined;
  readonly wanted: Length | undefined;
}

/**
 * How far one notch moves the ring gear on this axle (mm), from the two readings: the backlash it opens by what the mesh
 * says a millimetre opens. The geometry is known to about a fifth, and so is this.
 */
export function notchFrom(read: NotchReadings, perAway: number | undefined): Length | undefined {
  const { moved, before, after } = read;
  if (moved === undefined || before === undefined || after === undefined || perAway === undefined) return undefined;
  const rate = calibrateNotch(moved, before, after);
  return rate.ok ? mm(rate.value.backlashPerNotch / perAway) : undefined;
}

/** Notches from where it stands now, away positive; nothing while a reading is missing. */
/** The backlash to be expected once those notches are turned; nothing while they are not known. */
export function backlashThen(read: NotchReadings): Length | undefined {
  const { moved, before, after } = read;
  const notches = notchesNow(read);
  if (notches?.ok !== true || moved === undefined || before === undefined || after === undefined) return undefined;
  const rate = calibrateNotch(moved, before, after);
  return rate.ok ? mm(after + notches.value * rate.value.backlashPerNotch) : undefined;
}

export function notchesNow(read: NotchReadings): Result<number> | undefined {
  const { moved, before, after, wanted } = read;
  if (moved === undefined || before === undefined || after === undefined || wanted === undefined) return undefined;
  const rate = calibrateNotch(moved, before, after);
  return rate.ok ? ok(notchesFor(after, wanted, rate.value)) : rate;
}
