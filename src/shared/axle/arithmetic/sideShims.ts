import { type Length, mm } from '../../basics/quantity.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { ringInWords, thicknessInWords } from './words.ts';

/**
 * The two packs beside the case bearings. Behind a cup or under a cone a thicker one on the ring-gear side brings the ring
 * gear closer (TM 9-2320-289-34); under the flange of a retainer or cover it lets the bearing out, and all is reversed.
 */
export interface SidePacks {
  readonly ringSide: Length;
  readonly otherSide: Length;
}

/** Which way a thicker pack moves its bearing: in (1), or out under a flange (−1). */
export type SideSign = 1 | -1;

/** How preload is added to packs that just take up all play. */
const preloadSplits = ['both sides', 'other side'] as const;
export type PreloadSplit = (typeof preloadSplits)[number];

interface EndPlayReadings {
  /** Free travel of the case between its stops, pinion out, with `spacers` (if any) in place. */
  readonly endPlay: Length;
  /** Travel of the case from fully away until the teeth touch, pinion in. */
  readonly travelToMesh: Length;
  /** Packs that were in while it was measured: usually none, or equal dummies. */
  readonly inPlace: SidePacks;
}

interface SideWishes {
  readonly backlash: Length;
  /** Backlash for each mm of ring-gear movement, from the mesh model or learnt. */
  readonly backlashPerAway: number;
  readonly preload: Length;
  readonly split: PreloadSplit;
  /** −1 where the packs lie under the flanges of retainers or covers ({@link SideSign}); 1 where it is left out. */
  readonly sign?: SideSign;
}

/**
 * Both packs from end play A and travel to mesh B: ring side B − allowance, other side A − B + allowance, then preload
 * (common practice), where the allowance is the movement that opens the wanted backlash.
 */
export function packsFromPlay(readings: EndPlayReadings, wishes: SideWishes): Result<SidePacks, 'no-such-packs'> {
  const { endPlay, travelToMesh, inPlace } = readings;
  const allowance = wishes.backlash / wishes.backlashPerAway;
  const sign = wishes.sign ?? 1;
  const withoutPreload = {
    ringSide: mm(inPlace.ringSide + sign * (travelToMesh - allowance)),
    otherSide: mm(inPlace.otherSide + sign * (endPlay - travelToMesh + allowance)),
  };
  const packs = addPreload(withoutPreload, mm(sign * wishes.preload), wishes.split);
  return packs.ringSide < 0 || packs.otherSide < 0 || travelToMesh > endPlay ? noSuchPacks() : ok(packs);
}

/** Adds preload to packs that just take up all play: half to each side, or all to the other side; less than 0 under flanges. */
export function addPreload(packs: SidePacks, preload: Length, split: PreloadSplit = 'both sides'): SidePacks {
  const ringPreload = split === 'both sides' ? preload / 2 : 0;
  return { ringSide: mm(packs.ringSide + ringPreload), otherSide: mm(packs.otherSide + preload - ringPreload) };
}

/** What a change of the packs does, in words. */
interface SideAnswer {
  readonly packs: SidePacks;
  readonly ringAway: Length;
  readonly words: string;
}

/** Moves the ring gear and keeps the preload: what one side loses the other gains (TM 9-2320-289-34). */
export function moveRingGear(packs: SidePacks, ringAway: Length, sign: SideSign = 1): SideAnswer {
  const change = mm(sign * ringAway);
  const next = { ringSide: mm(packs.ringSide - change), otherSide: mm(packs.otherSide + change) };
  const words = `${ringInWords(ringAway)} The pack on the ring-gear side ${thicknessInWords(mm(0 - change))}, the other ${thicknessInWords(change)}; the preload stays.`;
  return { packs: next, ringAway, words };
}

const noSuchPacks = (): Result<never, 'no-such-packs'> =>
  fail({
    kind: 'no-such-packs',
    field: 'travelToMesh',
    sentence: 'The teeth touch before the case has left its stop, or only after its whole end play.',
    remedy: 'Check both travels and the packs that were in; with the pinion far too deep, set its depth first.',
  });
