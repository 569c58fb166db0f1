/** The phases of a build, in their order at the stand. */
export const phases = ['as-found', 'stripping', 'trial', 'final'] as const;
export type Phase = (typeof phases)[number];

/** Everything that can be asked at the stand, in the order in which it is done. job/checks/checks.ts says when it is. */
export const checkIds = [
  'caps-marked',
  'adjusters-marked',
  'set-numbers',
  'shims',
  'cup-seat',
  'depth-reading',
  'flange-runout',
  'ring-gear-seat',
  'ring-bolt-torque',
  'ring-gear-runout',
  'sleeve-new',
  'pinion-nut-torque',
  'pinion-torque',
  'cap-torque',
  'case-end-play',
  'case-preload',
  'case-tight',
  'backlash',
  'total-torque',
  'adjuster-locks',
  'nut-locked',
  'bolts-locked',
  'pins-and-clips',
  'differential-works',
  'mark',
  'oil',
] as const;
export type CheckId = (typeof checkIds)[number];
