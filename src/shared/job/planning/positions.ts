import type { MeshModel } from '../../axle/mesh/meshModel.ts';
import { evaluate } from '../../axle/mesh/evaluate.ts';
import { mm } from '../../basics/quantity.ts';
import { type Assembly, type Build, packAt, type Swap, swapOf } from '../records/build.ts';
import { setWithShims } from './seen.ts';
import { insideOf } from '../../basics/recorded.ts';
import { type MakeUp, notchOf, type ShimPlace, sideShimSign } from '../../axle/makeUp.ts';
import { type DepthPlace, shimForMovement } from '../../axle/arithmetic/depthShim.ts';

/** Names of the depth shim's place in a make-up and in the arithmetic. */
export const depthPlaceOf = (makeUp: MakeUp): DepthPlace =>
  makeUp.depthShimPlace === 'under-head-bearing' ? 'under-head' : makeUp.depthShimPlace;

/** Thickness of the measured pack at a place, in mm. */
export function packThickness(assembly: Assembly, place: ShimPlace): number | undefined {
  const pack = packAt(assembly, place);
  return pack === undefined ? undefined : insideOf(pack.pack);
}

/** Movement of the pinion for a change of its pack, out positive (mm). */
export function pinionOutFor(makeUp: MakeUp, change: number): number {
  // The arithmetic knows the sign of each place; a pack thick enough never runs out.
  const answer = shimForMovement(mm(10), mm(change), depthPlaceOf(makeUp));
  return answer.ok ? answer.value.change : 0;
}

/** Change of the pack that moves the pinion; its own inverse, because the sign is all there is. */
export const depthChangeFor = pinionOutFor;

/**
 * How far the ring gear moved between two assemblies by their side packs, away positive: half of what one side lost and
 * the other gained, so that a change of preload on both sides moves nothing.
 */
export function ringAwayByPacks(makeUp: MakeUp, from: Assembly, to: Assembly): number | undefined {
  const at = (assembly: Assembly) => ({
    ring: packThickness(assembly, 'ring-side'),
    other: packThickness(assembly, 'opposite-side'),
  });
  const [before, after] = [at(from), at(to)];
  if (before.ring === undefined || before.other === undefined) return undefined;
  if (after.ring === undefined || after.other === undefined) return undefined;
  return (sideShimSign(makeUp) * (after.other - before.other - (after.ring - before.ring))) / 2;
}

/** Where an assembly stands, counted from another (mm), and whether the ring gear's place is only inferred. */
export interface Moved {
  readonly pinionOut: number;
  readonly ringAway: number;
  readonly inferred: boolean;
}

type MeanBacklash = (assembly: Assembly) => number | undefined;

/** @returns the place that has no pack, where one of them stands between us and the answer. */
export function movedBetween(
  build: Build & { readonly makeUp: MakeUp },
  from: Assembly,
  to: Assembly,
  model: MeshModel,
  backlash: MeanBacklash,
): Moved | ShimPlace {
  const [before, after] = [packThickness(from, 'pinion-depth'), packThickness(to, 'pinion-depth')];
  if (before === undefined || after === undefined) return 'pinion-depth';
  const pinionOut = tidy(pinionOutFor(build.makeUp, after - before));
  if (build.makeUp.caseAdjustment !== 'threaded-adjusters') {
    const ringAway = ringAwayByPacks(build.makeUp, from, to);
    return ringAway === undefined ? 'ring-side' : { pinionOut, ringAway: tidy(ringAway), inferred: false };
  }
  const byCards = ringAwayByCards(build, from, to);
  if (byCards !== undefined) return { pinionOut, ringAway: tidy(byCards), inferred: false };
  const change = (backlash(to) ?? 0) - (backlash(from) ?? 0);
  return { pinionOut, ringAway: tidy(ringAwayFor(model, change, pinionOut)), inferred: true };
}

/** Notches of the swap cards between two trials, or those really turned where they were counted, as far as every trial between them was put together by one. */
function ringAwayByCards(build: Build & { readonly makeUp: MakeUp }, from: Assembly, to: Assembly): number | undefined {
  const trials = build.assemblies.filter(setWithShims);
  const between = trials.slice(trials.indexOf(from) + 1, trials.indexOf(to) + 1);
  // A card without notches was made while nobody knew what one does: what it wished for is not where the gear went.
  const moves = between.map((trial) => {
    const card = swapOf(build, trial);
    if (card?.notches === undefined) return undefined;
    const turned = trial.notchesTurned ?? card.notches;
    return turned === card.notches ? card.ringAway_mm : movedBy(build.makeUp, card, turned);
  });
  return moves.some((move) => move === undefined)
    ? undefined
    : moves.reduce<number>((sum, move) => sum + (move ?? 0), 0);
}

/** What was turned instead of what the card asked for, by the notch the card was made with. */
function movedBy(makeUp: MakeUp, { notches = 0, ringAway_mm }: Swap, turned: number): number | undefined {
  const each = notches === 0 ? notchOf(makeUp) : ringAway_mm / notches;
  return each === undefined ? undefined : each * turned;
}

/** With adjusters and no card, the backlash itself says where the ring gear stands: what the pinion did to it is taken off first. */
function ringAwayFor(model: MeshModel, backlashChange: number, pinionOut: number): number {
  const { ringAway, pinionOut: out } = backlashRates(model);
  return (backlashChange - out * pinionOut) / ringAway;
}

const probe_mm = 0.05;

/** Backlash at the heel, along the rotation, for each mm moved (mm per mm), where the marks lie. */
export function backlashRates(model: MeshModel): { readonly pinionOut: number; readonly ringAway: number } {
  const at = (pinionOut: number, ringAway: number): number =>
    evaluate(model, { pinionOut: mm(pinionOut), ringAway: mm(ringAway) }).backlash.transverseHeel / probe_mm;
  return { pinionOut: at(probe_mm, 0), ringAway: at(0, probe_mm) };
}

/** Differences of packs in thousandths of a millimetre would otherwise trail the binary noise of their sums. */
const tidy = (value: number): number => Math.round(value * 1e5) / 1e5;
