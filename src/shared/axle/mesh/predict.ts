import { ok, type Result } from '../../basics/result.ts';
import { toDegrees } from '../../basics/quantity.ts';
import type { Flank } from '../mark/mark.ts';
import type { SetInput } from './input.ts';
import { describeSet, type MeshModel } from './meshModel.ts';
import { backlashRate, type BacklashRate, markRate, type ShimMovement } from './rates.ts';
import { type Trust, trustIn } from './trust.ts';

/** One cell of the direction table: mm for each mm moved, with how far each direction may be relied on. */
interface MarkAnswer {
  readonly heel_mm: number;
  readonly crown_mm: number;
  readonly trust: { readonly heel: Trust; readonly crown: Trust };
}

interface FlankAnswer {
  readonly perPinionOut: MarkAnswer;
  readonly perRingAway: MarkAnswer;
}

/** What `predict` answers, keys as in docs/command-line.md. */
export interface PredictAnswer {
  readonly pitchAngle_deg: { readonly pinion: number; readonly ring: number };
  readonly spiral_deg: { readonly pinion: number; readonly ring: number };
  readonly faceWidth_mm: number;
  readonly flankHeight_mm: number;
  readonly backlash: { readonly perRingAway: BacklashRate; readonly perPinionOut: BacklashRate };
  readonly pattern: Readonly<Record<Flank, FlankAnswer>>;
  readonly assumed: readonly string[];
}

/** The engine of the `predict` verb: what the set is and what each movement does to it, at small movements. */
export function predictSet(input: SetInput): Result<PredictAnswer> {
  const described = describeSet(input);
  return described.ok ? ok(answerFrom(described.value)) : described;
}

function answerFrom(model: MeshModel): PredictAnswer {
  const { blank, visible } = model;
  return {
    pitchAngle_deg: { pinion: toDegrees(blank.pinionPitch), ring: toDegrees(blank.ringPitch) },
    spiral_deg: { pinion: toDegrees(blank.pinionSpiral), ring: toDegrees(blank.ringSpiral) },
    faceWidth_mm: visible.faceWidth,
    flankHeight_mm: visible.height,
    backlash: { perRingAway: backlashRate(model, 'ringAway'), perPinionOut: backlashRate(model, 'pinionOut') },
    pattern: { convex: flankAnswer(model, 'convex'), concave: flankAnswer(model, 'concave') },
    assumed: model.assumed,
  };
}

function flankAnswer(model: MeshModel, flank: Flank): FlankAnswer {
  const per = (movement: ShimMovement): MarkAnswer => {
    const { heel, crown } = markRate(model.flanks[flank], movement);
    return { heel_mm: heel, crown_mm: crown, trust: trustIn(model.set, flank, movement) };
  };
  return { perPinionOut: per('pinionOut'), perRingAway: per('ringAway') };
}
