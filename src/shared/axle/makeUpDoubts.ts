import { fail, ok, type Result } from '../basics/result.ts';
import type { MakeUp } from './makeUp.ts';

/**
 * A make-up whose parts exclude each other would turn the sign of a shim round, so it is refused.
 * @returns the make-up, or a Problem of kind `impossible-make-up` that names the wrong field.
 */
export function possible(makeUp: MakeUp): Result<MakeUp, 'impossible-make-up'> {
  if (makeUp.pinionMount === 'integral' && makeUp.depthShimPlace === 'under-cage') {
    const remedy = 'Choose where the shim sits in the housing, or that the pinion has a cage.';
    return impossible('depthShimPlace', 'A pinion carried in the housing has no cage to put a shim under.', remedy);
  }
  if (makeUp.ringTeeth <= makeUp.pinionTeeth) {
    return impossible('ringTeeth', 'The ring gear has more teeth than the pinion.', 'Count both again.');
  }
  if (makeUp.outerDiameter_mm !== undefined && (makeUp.offset_mm ?? 0) > 0.4 * makeUp.outerDiameter_mm) {
    return impossible('offset_mm', 'The offset is more than 0.4 of the ring gear’s diameter.', 'Check its unit.');
  }
  if (makeUp.outerDiameter_mm !== undefined && (makeUp.faceWidth_mm ?? 0) > 0.4 * makeUp.outerDiameter_mm) {
    return impossible('faceWidth_mm', 'The face is wider than 0.4 of the ring gear’s diameter.', 'Check its unit.');
  }
  return ok(makeUp);
}

const impossible = (field: keyof MakeUp, sentence: string, remedy: string): Result<never, 'impossible-make-up'> =>
  fail({ kind: 'impossible-make-up', field, sentence, remedy });

/** What axles usually have (common practice; round figures of our own): outside it a count or a size is asked about, not refused. */
const usual = { pinionTeeth: [5, 20], ratio: [2, 8], outerDiameter_mm: [120, 500], notch_mm: [0.02, 0.2] } as const;

/** What in a make-up is so unusual that it may have been typed wrongly, or sits where it seldom does; one sentence each. */
export function questionsAbout(makeUp: MakeUp): readonly string[] {
  const { pinionTeeth, ringTeeth, outerDiameter_mm, pinionMount, depthShimPlace } = makeUp;
  const ratio = ringTeeth / pinionTeeth;
  const asked: string[] = [];
  if (outside(pinionTeeth, usual.pinionTeeth)) {
    asked.push(`${pinionTeeth} teeth are unusual for an axle pinion: count them again.`);
  }
  if (outside(ratio, usual.ratio)) {
    asked.push(`${ringTeeth} to ${pinionTeeth} is ${ratio.toFixed(2)} to 1, unusual for an axle: count both again.`);
  }
  if (outerDiameter_mm !== undefined && outside(outerDiameter_mm, usual.outerDiameter_mm)) {
    asked.push(
      `A ring gear of ${Math.round(outerDiameter_mm)} mm is unusual for an axle: check the diameter and its unit.`,
    );
  }
  if (pinionMount === 'caged' && depthShimPlace === 'under-head-bearing') {
    asked.push(
      'A caged pinion usually has its depth shim under the cage: look again whether it lies under the head, because the sign turns round.',
    );
  }
  return asked;
}

/** A notch that no adjuster has would jam the gears or never reach them. */
export const unusualNotch = (notch_mm: number): boolean => outside(notch_mm, usual.notch_mm);

const outside = (value: number, [low, high]: readonly [number, number]): boolean => value < low || value > high;
