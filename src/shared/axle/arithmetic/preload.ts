import { type Length, mm, newtonMetres, type Torque } from '../../basics/quantity.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { thicknessInWords } from './words.ts';

const inchPound = 4.4482216152605 * 0.0254;

/** How rotating torque answers to the preload shim: N·m for each mm; negative, because less shim is more preload. */
interface ShimSlope {
  readonly perMm: number;
  readonly from: 'two readings' | 'common practice';
}

/**
 * Before two readings exist. Common practice: 0.001 in moved one axle from about 20 to 13 in-lb; 5 to 10 in-lb for each
 * 0.001 in is said from memory. Far from the window it only says which way to go.
 */
export const startingSlope: ShimSlope = { perMm: (-7 * inchPound) / 0.0254, from: 'common practice' };

interface PreloadReading {
  readonly shim: Length;
  readonly running: Torque;
}

/** The slope of this axle from two shims and their running torques at full nut torque. */
export function learnShimSlope(a: PreloadReading, b: PreloadReading): Result<ShimSlope, 'slope-not-learnt'> {
  const perMm = (a.running - b.running) / (a.shim - b.shim);
  if (Number.isFinite(perMm) && perMm < 0) return ok({ perMm, from: 'two readings' });
  return fail({
    kind: 'slope-not-learnt',
    field: 'shim',
    sentence: 'The thinner shim did not give the higher torque.',
    remedy:
      'Measure both packs again, bring the nut to full torque and turn the pinion until its bearings have seated.',
  });
}

export interface PreloadAnswer {
  readonly shim: Length;
  readonly change: Length;
  readonly words: string;
}

/** The preload shim that brings the running torque to the wanted one. */
export function preloadShim(
  now: PreloadReading,
  wanted: Torque,
  slope: ShimSlope,
): Result<PreloadAnswer, 'no-such-shim'> {
  const change = mm((wanted - now.running) / slope.perMm);
  const shim = mm(now.shim + change);
  if (shim < 0) return noShimLeft();
  const basis =
    slope.from === 'common practice' ? ' This slope is common practice, not this axle’s: expect to repeat.' : '';
  return ok({ shim, change, words: `The preload shim ${thicknessInWords(change)}.${basis}` });
}

/** What turns when the pinion is turned with the case in; all running, all with the same seal state. */
interface TorqueParts {
  readonly pinion: Torque;
  readonly caseBearings: Torque;
  readonly mesh: Torque;
}

/** Total rotating torque at the pinion: the case turns slower, so its drag counts by the ratio (common practice). */
export const totalTorque = (parts: TorqueParts, ratio: number): Torque =>
  newtonMetres(parts.pinion + parts.caseBearings / ratio + parts.mesh);

const noShimLeft = (): Result<never, 'no-such-shim'> =>
  fail({
    kind: 'no-such-shim',
    field: 'shim',
    sentence: 'No shim is thin enough for that preload.',
    remedy: 'Check the spacer, the bearings’ seats and the nut torque before taking more shim out.',
  });
