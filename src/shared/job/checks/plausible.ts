import type { CheckId } from '../records/checkIds.ts';
import type { LimitedQuantity } from '../records/specSheet.ts';
import type { Problem } from '../../basics/result.ts';

/**
 * The most that is met at any axle, and some more, in mm or N·m (own choice, from no table): beyond it a digit or the unit was
 * mistaken. What has no line here may be anything.
 */
const most: Readonly<Partial<Record<CheckId | LimitedQuantity, number>>> = {
  backlash: 2,
  'backlash-variation': 1,
  'ring-gear-runout': 2,
  'flange-runout': 2,
  'ring-gear-seat': 1,
  'cup-seat': 1,
  'pinion-torque': 60,
  'total-torque': 80,
  'case-end-play': 10,
  'case-preload': 10,
  'cap-torque': 2000,
  'ring-bolt-torque': 2000,
  'pinion-nut-torque': 3000,
};

/**
 * Why a typed number, or an end of a limit, cannot be what it is said to be; nothing where it can.
 * @param inside the number in mm or N·m
 */
export function implausible(of: CheckId | LimitedQuantity, inside: number): Problem<'implausible'> | undefined {
  const top = most[of];
  if (top === undefined) return undefined;
  if (inside < 0) return { kind: 'implausible', sentence: 'Less than nothing.', remedy: 'Look at the sign.' };
  return inside > top
    ? {
        kind: 'implausible',
        sentence: 'More than any axle has.',
        remedy: 'Look at the point and the unit beside it.',
      }
    : undefined;
}
