import { type Length, mm } from '../../basics/quantity.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { answer, type DepthAnswer, shimForMovement, type DepthPlace } from './depthShim.ts';
import { type EtchedMark, wantedOut } from './etchedMark.ts';

/** What a distance from the ring-gear axis is measured to: the front of the pinion head, or its bearing seat at the back. */
const headFaces = ['front', 'back'] as const;
export type HeadFace = (typeof headFaces)[number];

/** A distance from the ring-gear axis: a checking distance goes to the front of the head, a mounting distance to its back. */
interface HeadDistance {
  readonly distance: Length;
  readonly to: HeadFace;
}

/** An arbor on the ring-gear axis and a gap measured from it to the pinion head. */
interface ArborReading {
  readonly gap: Length;
  readonly arborDiameter: Length;
  readonly to: HeadFace;
}

export const distanceFromArbor = (reading: ArborReading): HeadDistance => ({
  distance: mm(reading.gap + reading.arborDiameter / 2),
  to: reading.to,
});

/** The distance wanted: the nominal one and the pinion's own mark; a mark that is itself a full distance stands alone. */
export const wantedDistance = (nominal: Length, mark: EtchedMark | undefined): Length => {
  if (mark === undefined) return nominal;
  return mark.unit.startsWith('distance') ? wantedOut(mark) : mm(nominal + wantedOut(mark));
};

/**
 * The shim that brings the pinion from the measured to the wanted distance.
 * @param headThickness front to back, needed only where the two distances go to different faces.
 */
export function shimFromDistance(
  measured: HeadDistance,
  wanted: HeadDistance,
  now: Length,
  place: DepthPlace,
  headThickness?: Length,
): Result<DepthAnswer, 'faces-differ' | 'no-such-shim'> {
  const same = toFace(measured, wanted.to, headThickness);
  if (!same.ok) return same;
  return shimForMovement(now, mm(wanted.distance - same.value), place);
}

function toFace(from: HeadDistance, face: HeadFace, thickness: Length | undefined): Result<Length, 'faces-differ'> {
  if (from.to === face) return ok(from.distance);
  if (thickness === undefined) return facesDiffer();
  return ok(mm(from.distance + (face === 'back' ? thickness : 0 - thickness)));
}

/**
 * A gauge block in place of the pinion: the thickest feeler that enters is the shim for a pinion marked 0. The shim sits
 * on the head side, where a pinion that wants to be further out needs a thinner one.
 */
export function shimFromGaugeBlock(
  feeler: Length,
  mark: EtchedMark | undefined,
  now: Length,
  place: Exclude<DepthPlace, 'under-cage'>,
): Result<DepthAnswer, 'no-such-shim'> {
  const out = mark === undefined ? 0 : wantedOut(mark);
  return answer(now, mm(feeler - out), place);
}

/**
 * Travel of a dial that has been zeroed one turn in and then swung off the block. The pointer alone does not tell turns:
 * TM 9-2320-280-34 s. 19-3 reads 84 to 99 direct and adds a full turn to 0 to 11. Anything between is not believed.
 * @param pointer thousandths of an inch under the pointer, 0 to 99.
 */
export function dialTravel(pointer: number): Result<Length, 'turn-not-known'> {
  if (pointer >= 84 && pointer < 100) return ok(mm(pointer * 0.0254));
  if (pointer >= 0 && pointer <= 11) return ok(mm((100 + pointer) * 0.0254));
  return fail({
    kind: 'turn-not-known',
    field: 'pointer',
    sentence: `A pointer at ${pointer} is outside both 84–99 and 0–11: how many turns the dial made cannot be told.`,
    remedy: 'Zero the dial on the block again with one turn of preload, and watch the small hand.',
  });
}

const facesDiffer = (): Result<never, 'faces-differ'> =>
  fail({
    kind: 'faces-differ',
    field: 'headThickness',
    sentence: 'One distance goes to the front of the pinion head and the other to its back.',
    remedy: 'Measure the head from front to back and type it, or use two distances of the same kind.',
  });
