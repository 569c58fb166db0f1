import { type Angle, newtonMetres, radians, type Torque } from '../../basics/quantity.ts';
import { none, type OrNone } from '../../basics/result.ts';

/** One small step of the nut, and the rotating torque read after it, the bearings turned both ways to seat. */
export interface SleeveStep {
  readonly running: Torque;
  /** Standard uncertainty of that reading. */
  readonly u: number;
  /** How far the nut was turned in this step. */
  readonly nutTurn?: Angle;
  /** Torque it took to turn the nut. */
  readonly nutTorque?: Torque;
}

export interface SleeveTarget {
  readonly min: Torque;
  readonly max: Torque;
  /** The maker's largest nut torque. */
  readonly ceiling?: Torque;
}

/**
 * Where creeping up on the band stands. `start`: nothing read yet; `below`: another step like the last stays under the
 * top of the band; `small-steps`: one like the last may pass it; `in-band`; `above`; `ceiling`: the maker's largest
 * nut torque is reached and the band is not; `no-band`: nobody has entered where the creeping goes.
 */
export type SleeveStand = 'start' | 'below' | 'small-steps' | 'in-band' | 'above' | 'ceiling' | 'no-band';

export interface SleeveAdvice {
  readonly stand: SleeveStand;
  /** The last five steps, oldest first. */
  readonly last: readonly SleeveStep[];
  /** Running torque to expect after one more step like the last. */
  readonly next: OrNone<{ readonly running: Torque; readonly u: number }, 'too-few-steps'>;
  /** Turn of the nut that should reach the middle of the band at the latest rate; half of it is a step to take. */
  readonly toMiddle: OrNone<Angle, 'too-few-steps' | 'no-nut-angle'>;
  /** What must be known besides where it stands. */
  readonly sentence?: string;
  readonly remedy: string;
}

const remembered = 5;

/** What the steps so far say. The maker's manual decides; its ceiling is a stop. */
export function sleeveAdvice(steps: readonly SleeveStep[], target: SleeveTarget | undefined): SleeveAdvice {
  const next = nextStep(steps);
  const stand = target === undefined ? 'no-band' : standOf(steps.at(-1), next, target);
  const toMiddle = target === undefined ? none('too-few-steps') : toMiddleOf(steps, target);
  return { stand, last: steps.slice(-remembered), next, toMiddle, ...words[stand] };
}

function standOf(last: SleeveStep | undefined, next: SleeveAdvice['next'], target: SleeveTarget): SleeveStand {
  if (last === undefined) return 'start';
  if (last.running > target.max) return 'above';
  if (last.running >= target.min) return 'in-band';
  if (target.ceiling !== undefined && (last.nutTorque ?? 0) >= target.ceiling) return 'ceiling';
  if ('none' in next) return 'below';
  return next.running + 2 * next.u > target.max ? 'small-steps' : 'below';
}

/**
 * Drag comes suddenly: once the bearings take load, each step brings more than the one before. The next step is
 * expected to grow as the last two did, at least as much as the last and at most twice it.
 */
function nextStep(steps: readonly SleeveStep[]): SleeveAdvice['next'] {
  const [third, second, last] = [steps.at(-3), steps.at(-2), steps.at(-1)];
  if (second === undefined || last === undefined) return none('too-few-steps');
  const byAngle = last.nutTurn !== undefined && second.nutTurn !== undefined;
  const rise = rate(second, last, byAngle);
  const before = third === undefined ? rise : rate(third, second, byAngle);
  const growth = before > 0 ? Math.min(2, Math.max(1, rise / before)) : 1;
  const running = last.running + Math.max(0, rise) * growth * (byAngle ? (last.nutTurn ?? 1) : 1);
  return { running: newtonMetres(running), u: Math.hypot((1 + growth) * last.u, growth * second.u) };
}

/** Rise of running torque per radian of the nut, or per step. */
const rate = (from: SleeveStep, to: SleeveStep, byAngle: boolean): number =>
  (to.running - from.running) / (byAngle ? (to.nutTurn ?? 1) : 1);

function toMiddleOf(steps: readonly SleeveStep[], { min, max }: SleeveTarget): SleeveAdvice['toMiddle'] {
  const [before, last] = [steps.at(-2), steps.at(-1)];
  if (before === undefined || last === undefined) return none('too-few-steps');
  if (last.nutTurn === undefined) return none('no-nut-angle');
  const rise = rate(before, last, true);
  if (!(rise > 0)) return none('too-few-steps');
  return radians(Math.max(0, ((min + max) / 2 - last.running) / rise));
}

/** Common practice throughout; the numbers are the maker's. */
const words: Record<SleeveStand, Pick<SleeveAdvice, 'sentence' | 'remedy'>> = {
  start: {
    remedy: 'Turn the pinion both ways to seat the bearings, then read the rotating torque before the first step.',
  },
  below: {
    remedy: 'Take another small step, turn the pinion both ways, and read again.',
  },
  'small-steps': {
    sentence: 'Another step like the last may pass the band.',
    remedy: 'Take half a step or less, turn the pinion both ways, and read again.',
  },
  'no-band': {
    sentence: 'No band is entered for this torque, so nothing says when to stop.',
    remedy: 'Enter it from the maker’s manual before the next step: past it only a new sleeve helps.',
  },
  'in-band': {
    remedy: 'Turn the pinion several times both ways and read once more. Do not move the nut.',
  },
  above: {
    sentence: 'Backing off the nut is no remedy: the sleeve stays crushed and no longer holds the bearings.',
    remedy: 'Take the pinion out, fit a new sleeve and a new nut, and begin again. Follow the maker’s manual.',
  },
  ceiling: {
    sentence: 'The maker’s largest nut torque is reached and the band is not.',
    remedy:
      'Do not tighten further. Look for a wrong or faulty sleeve, or something in its way. Follow the maker’s manual.',
  },
};
