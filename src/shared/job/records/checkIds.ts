/** The phases of a build, in their order at the stand. */
export const phases = ['as-found', 'trial', 'final'] as const;
export type Phase = (typeof phases)[number];

/** Everything that can be asked at the stand, in the order in which it is done. setup/checks.ts says when it is. */
export const checkIds = [
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
  'case-end-play',
  'case-preload',
  'cap-torque',
  'case-tight',
  'backlash',
  'total-torque',
  'adjuster-locks',
  'mark',
] as const;
export type CheckId = (typeof checkIds)[number];
