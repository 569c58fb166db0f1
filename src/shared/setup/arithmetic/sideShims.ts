import { type Length, mm } from '../../quantities/quantity.ts';
import { fail, ok, type Result } from '../../result.ts';
import { ringInWords, thicknessInWords } from './words.ts';

/** The two packs beside the case bearings. Thicker on the ring-gear side brings the ring gear closer (TM 9-2320-289-34). */
export interface SidePacks {
  readonly ringSide: Length;
  readonly otherSide: Length;
}

/** How preload is added to packs that just take up all play. */
export const preloadSplits = ['both sides', 'other side'] as const;
export type PreloadSplit = (typeof preloadSplits)[number];

export interface EndPlayReadings {
  /** Free travel of the case between its stops, pinion out, with `spacers` (if any) in place. */
  readonly endPlay: Length;
  /** Travel of the case from fully away until the teeth touch, pinion in. */
  readonly travelToMesh: Length;
  /** Packs that were in while it was measured: usually none, or equal dummies. */
  readonly inPlace: SidePacks;
}

export interface SideWishes {
  readonly backlash: Length;
  /** Backlash for each mm of ring-gear movement, from the mesh model or learnt. */
  readonly backlashPerAway: number;
  readonly preload: Length;
  readonly split: PreloadSplit;
}

/**
 * Both packs from end play A and travel to mesh B: ring side B − allowance, other side A − B + allowance, then preload
 * (common practice), where the allowance is the movement that opens the wanted backlash.
 */
export function packsFromPlay(readings: EndPlayReadings, wishes: SideWishes): Result<SidePacks, 'no-such-packs'> {
  const { endPlay, travelToMesh, inPlace } = readings;
  const allowance = wishes.backlash / wishes.backlashPerAway;
  const ringPreload = wishes.split === 'both sides' ? wishes.preload / 2 : 0;
  const packs = {
    ringSide: mm(inPlace.ringSide + travelToMesh - allowance + ringPreload),
    otherSide: mm(inPlace.otherSide + endPlay - travelToMesh + allowance + wishes.preload - ringPreload),
  };
  return packs.ringSide < 0 || packs.otherSide < 0 || travelToMesh > endPlay ? noSuchPacks() : ok(packs);
}

/** What a change of the packs does, in words. */
export interface SideAnswer {
  readonly packs: SidePacks;
  readonly ringAway: Length;
  readonly words: string;
}

/** Moves the ring gear and keeps the preload: what one side loses the other gains (TM 9-2320-289-34). */
export function moveRingGear(packs: SidePacks, ringAway: Length): SideAnswer {
  const next = { ringSide: mm(packs.ringSide - ringAway), otherSide: mm(packs.otherSide + ringAway) };
  const words = `${ringInWords(ringAway)} The pack on the ring-gear side ${thicknessInWords(mm(0 - ringAway))}, the other ${thicknessInWords(ringAway)}; the preload stays.`;
  return { packs: next, ringAway, words };
}

/** Adds preload without moving the ring gear: half to each side. */
export const addPreload = (packs: SidePacks, preload: Length): SidePacks => ({
  ringSide: mm(packs.ringSide + preload / 2),
  otherSide: mm(packs.otherSide + preload / 2),
});

/** The movement of the ring gear for a wanted change of backlash. */
export const awayForBacklash = (change: Length, backlashPerAway: number): Length => mm(change / backlashPerAway);

/**
 * Backlash for each mm of ring-gear movement, learnt from two settings of the same axle.
 * @returns a Problem where the two readings cannot both be right: outside 0.3 to 1.1 it is a measuring fault (common practice).
 */
export function learnPerAway(ringAway: Length, backlashChange: Length): Result<number, 'measuring-fault'> {
  const rate = backlashChange / ringAway;
  if (rate >= 0.3 && rate <= 1.1) return ok(rate);
  return fail({
    kind: 'measuring-fault',
    field: 'backlash',
    sentence: `Backlash changed by ${backlashChange.toFixed(3)} mm for ${ringAway.toFixed(3)} mm of ring-gear movement: gears do not do that.`,
    remedy: 'Measure the packs and the backlash again, with the caps at full torque and the same station.',
  });
}

const noSuchPacks = (): Result<never, 'no-such-packs'> =>
  fail({
    kind: 'no-such-packs',
    field: 'travelToMesh',
    sentence: 'The teeth touch before the case has left its stop, or only after its whole end play.',
    remedy: 'Check both travels and the packs that were in; with the pinion far too deep, set its depth first.',
  });
