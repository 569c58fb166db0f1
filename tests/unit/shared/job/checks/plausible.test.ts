import fc from 'fast-check';
import { expect, it } from 'vitest';
import { implausible } from '../../../../../src/shared/job/checks/plausible.ts';

it('asks about 8000 N·m on a cap and 99 mm of end play, and about a sign', () => {
  expect(implausible('case-end-play', 99)?.sentence).toMatch(/More than any axle has/u);
  expect(implausible('cap-torque', 8000)?.remedy).toMatch(/the unit beside it/u);
  expect(implausible('case-end-play', -0.02)?.remedy).toMatch(/sign/u);
});

it('asks about a backlash, a runout and a rotating torque no axle has: a lost point, or hundredths taken for whole', () => {
  for (const check of ['backlash', 'ring-gear-runout', 'flange-runout'] as const) {
    expect(implausible(check, 2)).toBeUndefined();
    expect(implausible(check, 2.01)?.remedy).toMatch(/Look at the point and the unit/u);
    expect(implausible(check, -0.01)).toBeDefined();
  }
  expect(implausible('pinion-torque', 60)).toBeUndefined();
  expect(implausible('pinion-torque', 61)?.remedy).toMatch(/Look at the point and the unit/u);
  expect(implausible('total-torque', 81)?.remedy).toMatch(/Look at the point and the unit/u);
});

it('asks about a limit whose point was lost, and not about one that a manual prints', () => {
  expect(implausible('backlash', 15)?.sentence).toMatch(/More than any axle has/u);
  expect(implausible('backlash', 0.35)).toBeUndefined();
  expect(implausible('pinion-torque', 180)?.remedy).toMatch(/the unit beside it/u);
  expect(implausible('total-torque', 6)).toBeUndefined();
});

it('lets through what is met, and whatever a depth tool shows', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 25, noNaN: true }), (mm) => {
      expect(implausible('case-preload', mm / 3)).toBeUndefined();
      expect(implausible('cap-torque', mm * 40)).toBeUndefined();
      expect(implausible('depth-reading', 20 - 100 * mm)).toBeUndefined();
    }),
  );
});
