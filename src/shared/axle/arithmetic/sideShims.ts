import { type Length, mm } from '../../basics/quantity.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
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
  const withoutPreload = {
    ringSide: mm(inPlace.ringSide + travelToMesh - allowance),
    otherSide: mm(inPlace.otherSide + endPlay - travelToMesh + allowance),
  };
  const packs = addPreload(withoutPreload, wishes.preload, wishes.split);
  return packs.ringSide < 0 || packs.otherSide < 0 || travelToMesh > endPlay ? noSuchPacks() : ok(packs);
}

/** Adds preload to packs that just take up all play: half to each side, or all to the other side. */
export function addPreload(packs: SidePacks, preload: Length, split: PreloadSplit = 'both sides'): SidePacks {
  const ringPreload = split === 'both sides' ? preload / 2 : 0;
  return { ringSide: mm(packs.ringSide + ringPreload), otherSide: mm(packs.otherSide + preload - ringPreload) };
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

const noSuchPacks = (): Result<never, 'no-such-packs'> =>
  fail({
    kind: 'no-such-packs',
    field: 'travelToMesh',
    sentence: 'The teeth touch before the case has left its stop, or only after its whole end play.',
    remedy: 'Check both travels and the packs that were in; with the pinion far too deep, set its depth first.',
  });
