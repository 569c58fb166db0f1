import { z } from 'zod';
import {
  idSchema,
  insideOf,
  instantSchema,
  nameSchema,
  quantityTypedSchema,
  type QuantityTyped,
} from '../../basics/recorded.ts';
import type { Gauge } from './gauge.ts';

/** So many times the amount is laid on: fewer tell nothing of how well the gauge repeats. */
export const fewestRepeats = 3;

/** One day's check of a gauge: zero, an amount that is known (a block, a weight on an arm), and that again. */
export const gaugeCheckSchema = z.strictObject({
  gauge: idSchema,
  at: instantSchema,
  by: nameSchema,
  known: quantityTypedSchema,
  /** Rows of the journal the numbers rest on. */
  zeroSeq: z.int().min(0),
  shownSeqs: z.array(z.int().min(0)).min(fewestRepeats).max(20),
  /** In mm or N·m. */
  zero: z.number(),
  shown: z.array(z.number()).min(fewestRepeats).max(20),
});
export type GaugeCheck = z.infer<typeof gaugeCheckSchema>;

export interface GaugeCheckJudged {
  /** Mean of what it showed above its zero, less the known amount; in mm or N·m. */
  readonly off: number;
  /** Largest less smallest of what it showed for one amount. */
  readonly spread: number;
  /** What its stated error and its resolution let it be off by; undefined where no error is stated. */
  readonly allowed: number | undefined;
  readonly verdict: 'within' | 'outside' | 'not-stated';
}

/**
 * Holds a check against what the gauge states of itself. Zero and amount are each read to a step of its display, so two
 * steps go with the stated error; without a stated error there is nothing to hold it against.
 */
export function judgeGaugeCheck(
  { zero, shown, known }: Pick<GaugeCheck, 'zero' | 'shown' | 'known'>,
  gauge: Pick<Gauge, 'resolution' | 'statedError' | 'statedError_percent'>,
): GaugeCheckJudged {
  const amount = insideOf(known);
  const mean = shown.reduce((sum, each) => sum + each, 0) / shown.length;
  const off = mean - zero - amount;
  const spread = Math.max(...shown) - Math.min(...shown);
  const stated = statedAt(amount, gauge);
  if (stated === undefined) return { off, spread, allowed: undefined, verdict: 'not-stated' };
  const allowed = stated + 2 * insideOf(gauge.resolution);
  // A number read off a display is a whole number of steps: rounding must not push one over the edge.
  const tiny = insideOf(gauge.resolution) / 1e6;
  return {
    off,
    spread,
    allowed,
    verdict: Math.abs(off) <= allowed + tiny && spread <= allowed + tiny ? 'within' : 'outside',
  };
}

function statedAt(
  amount: number,
  {
    statedError,
    statedError_percent,
  }: { readonly statedError?: QuantityTyped | undefined; readonly statedError_percent?: number | undefined },
): number | undefined {
  const bounds = [
    ...(statedError === undefined ? [] : [insideOf(statedError)]),
    ...(statedError_percent === undefined ? [] : [(Math.abs(amount) * statedError_percent) / 100]),
  ];
  return bounds.length === 0 ? undefined : Math.max(...bounds);
}
