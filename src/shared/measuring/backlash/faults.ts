import { mean } from '../../basics/statistics.ts';
import { drifts } from './drift.ts';
import { type Evidence, restError } from './evidence.ts';
import { creeps } from './held.ts';
import type { Refusal } from './measured.ts';
import { levelsOf } from './rocks.ts';
import { stoodTwiceWhy, whyRefused } from './sentences.ts';
import { stoodTwice } from './twice.ts';

interface Fault {
  readonly reason: Refusal;
  /** What it means at the stand, and what to look at. */
  readonly why: string;
}

const because = (reason: Refusal, why = whyRefused[reason]): Fault => ({ reason, why });

/**
 * The fault that forbids a number, whatever the rests' spread says, or undefined. In the order in which one explains
 * another: a stem at its end makes one side look pressed home, a wandering base makes rocks differ.
 */
export function faultIn(evidence: Evidence): Fault | undefined {
  if (evidence.rests.length < LEAST_RESTS) return undefined;
  if (atAnEnd(evidence)) return because('end-of-travel');
  if (drifts(evidence)) return because('drift');
  if (creeps(evidence)) return because('not-held');
  const step = stoodTwice(evidence);
  return step === undefined ? undefined : because('not-held', stoodTwiceWhy(step));
}

/** Two on either side. */
const LEAST_RESTS = 4;

/** One side's rests stand where the stem has no travel left: the gear may have gone farther than the stem. */
export function atAnEnd(evidence: Evidence): boolean {
  const { rests, settings, hangs } = evidence;
  const ends = [settings.travel?.from, settings.travel?.to, hangs].filter((end) => end !== undefined);
  const near = settings.resolution + (settings.hysteresis ?? 0) + 2 * (settings.gaugeU ?? 0) + 3 * restError(evidence);
  return (['low', 'high'] as const).some((side) => {
    const levels = levelsOf(rests, side);
    return levels.length > 1 && ends.some((end) => Math.abs(mean(levels) - end) <= near);
  });
}
