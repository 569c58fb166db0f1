import { aimOf } from './aim.ts';
import { glimpse } from './insight.ts';
import type { PlanInput } from './input.ts';
import { readingOf } from './misfit.ts';
import { type Figure, outlookAt } from './outlook.ts';
import { placeOf } from './reading.ts';
import type { Sight } from './sight.ts';
import { millimetres, listed, signed } from './words.ts';

/**
 * How right the trials before the last one were about it: what they led one to expect there, and what was read.
 * @returns nothing after the first trial.
 */
export function reviewOf(input: PlanInput, sight: Sight): string | undefined {
  const [last, before] = [input.trials.at(-1), input.trials.slice(0, -1)];
  if (last === undefined || before.length === 0) return undefined;
  const then = { ...input, trials: before };
  const { marks, backlash } = outlookAt(sight, glimpse(then, sight), aimOf(then), placeOf(last));
  const { drive } = last.pattern;
  const figures: readonly Figured[] = [
    {
      name: 'height',
      off: drive.crown - marks.drive.crown.mean,
      within: within(marks.drive.crown, readingOf(drive, 'crown')),
    },
    {
      name: 'backlash',
      off: last.backlash.mean_mm - backlash.mean,
      within: within(backlash, (last.backlash.U95_mm ?? 0.01) / 2),
    },
    ...(sight.lengthwise
      ? [
          {
            name: 'place along the face',
            off: drive.heel - marks.drive.heel.mean,
            within: within(marks.drive.heel, readingOf(drive, 'heel')),
          },
        ]
      : []),
  ];
  const otherwise = figures.filter(({ off, within: doubt }) => Math.abs(off) > doubt).map(({ name }) => name);
  const verdict = otherwise.length === 0 ? 'as expected' : `${listed(otherwise)} not as expected, and weighed in`;
  return `The trials before led to expect the drive mark at height ${signed(marks.drive.crown.mean)} within ${within(marks.drive.crown, readingOf(drive, 'crown')).toFixed(2)} and backlash of ${millimetres(backlash.mean)}; it was read at ${signed(drive.crown)} and ${millimetres(last.backlash.mean_mm)}, ${verdict}.`;
}

interface Figured {
  readonly name: string;
  readonly off: number;
  readonly within: number;
}

/** What was expected and what was read may differ by this much (coverage factor 2). */
const within = ({ sd }: Figure, reading: number): number => 2 * Math.hypot(sd, reading);
