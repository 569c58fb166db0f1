import { insightFrom } from './insight.ts';
import type { PlanInput } from './input.ts';
import { readingOf } from './misfit.ts';
import { outlookAt } from './outlook.ts';
import { placeOf } from './reading.ts';
import type { Sight } from './sight.ts';
import { signed } from './words.ts';

/**
 * How right the trials before the last one were about it: what they led one to expect there, and what was read.
 * @returns nothing after the first trial.
 */
export function reviewOf(input: PlanInput, sight: Sight): string | undefined {
  const [last, before] = [input.trials.at(-1), input.trials.slice(0, -1)];
  if (last === undefined || before.length === 0) return undefined;
  const { axles, aim } = insightFrom({ ...input, trials: before }, sight);
  const { marks, backlash } = outlookAt(sight, axles, aim, placeOf(last));
  const { crown } = marks.drive;
  const within = 2 * Math.hypot(crown.sd, readingOf(last.pattern.drive, 'crown'));
  const off =
    Math.abs(last.pattern.drive.crown - crown.mean) <= within ? 'as expected' : 'not as expected, and is weighed in';
  return `The trials before led to expect the drive mark at height ${signed(crown.mean)} within ${within.toFixed(2)} and backlash of ${backlash.mean.toFixed(2)} mm; it was read at ${signed(last.pattern.drive.crown)} and ${last.backlash.mean_mm.toFixed(2)} mm, ${off}.`;
}
