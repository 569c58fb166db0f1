import type { Length } from '../../basics/quantity.ts';
import type { Flank, Mark } from '../mark/mark.ts';
import type { EaseOff } from './easeoff.ts';
import { evaluateFlank, type Position } from './evaluate.ts';
import type { MeshModel } from './meshModel.ts';

const passes = 24;

/**
 * The ease-off whose rolled mark, at the position the mark was made in, has the mark's place and size: what the picture
 * starts from once paint has been seen. Bias is kept as the model has it: slant says too little about it.
 * A mark that reaches an edge was cut there; what lies beyond is not known, so the answer is the least that explains it.
 * @param film thickness of the compound (mm); curvatures come out in proportion to it.
 */
export function easeoffFromMark(model: MeshModel, flank: Flank, mark: Mark, position: Position, film: Length): EaseOff {
  let easeoff = model.flanks[flank].easeoff;
  for (let pass = 0; pass < passes; pass += 1) {
    const predicted = evaluateFlank(model, flank, position, { film, easeoff: { [flank]: easeoff } });
    easeoff = nearer(easeoff, predicted, mark, model);
  }
  return easeoff;
}

/** One step: a mark that came out too long is too flat, one too far to the heel has its apex too far to the heel. */
function nearer(from: EaseOff, predicted: Mark, seen: Mark, model: MeshModel): EaseOff {
  const { faceWidth, height } = model.visible;
  const apex = from.apex ?? { u: 0, v: 0 };
  const a = from.a * bounded(predicted.length / seen.length);
  const c = from.c * bounded(predicted.height / seen.height);
  return {
    a,
    // The same share of bias, so that both principal curvatures stay positive.
    b: from.b * Math.sqrt((a * c) / (from.a * from.c)),
    c,
    apex: {
      u: apex.u + 0.8 * (seen.heel - predicted.heel) * faceWidth,
      v: apex.v + 0.8 * (seen.crown - predicted.crown) * height,
    },
  };
}

/** Lengths go as one over the root of the curvature; the exponent is kept lower and the step short, so that it settles. */
const bounded = (ratio: number): number => Math.min(1.6, Math.max(0.6, ratio ** 1.4));
