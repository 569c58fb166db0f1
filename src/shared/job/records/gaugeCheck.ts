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
  /** What is wrong with the gauge, in a sentence; undefined where the check shows nothing wrong. */
  readonly why?: string;
}

/** Off by so large a share of the amount, no error of an instrument explains it (own choice). */
const scaleOff = 0.1;
/** A gauge that stands and does not slip shows the same amount within so many steps of its display (own choice). */
const slips_steps = 5;

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
  const step = insideOf(gauge.resolution);
  const allowed = stated === undefined ? undefined : stated + 2 * step;
  const why = whyWrong({ off, spread }, allowed, { amount: Math.abs(amount), step });
  if (why !== undefined) return { off, spread, allowed, verdict: 'outside', why };
  return { off, spread, allowed, verdict: allowed === undefined ? 'not-stated' : 'within' };
}

/** A wrong unit or a slipping gauge shows whether or not an error is stated; what is stated is held against the check besides. */
function whyWrong(
  { off, spread }: Pick<GaugeCheckJudged, 'off' | 'spread'>,
  allowed: number | undefined,
  { amount, step }: { readonly amount: number; readonly step: number },
): string | undefined {
  // A number read off a display is a whole number of steps: rounding must not push one over the edge.
  const tiny = step / 1e6;
  if (Math.abs(off) > Math.max(scaleOff * amount, slips_steps * step) + tiny)
    return 'Its unit or its scale is wrong, or the amount was another.';
  if (spread > Math.max(allowed ?? 0, slips_steps * step) + tiny) return 'It does not repeat: it slips, or was moved.';
  if (allowed === undefined) return undefined;
  if (Math.abs(off) > allowed + tiny) return 'It is off by more than it states of itself.';
  return spread > allowed + tiny ? 'It repeats worse than it states of itself.' : undefined;
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
