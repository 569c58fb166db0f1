import type { MakeUp } from '../../shared/axle/makeUp.ts';
import type { SpecSheet } from '../../shared/job/records/specSheet.ts';

/**
 * The axle that hardware-sim simulates, as a technician would describe it, and invented limits for it: for the demo, and to
 * fill in on the simulated bench.
 */
export const makeUp: MakeUp = {
  pinionTeeth: 13,
  ringTeeth: 45,
  outerDiameter_mm: 205,
  gearSet: 'new',
  cut: 'face-milled',
  driveFlank: 'convex',
  caseAdjustment: 'outboard-shims',
  pinionMount: 'integral',
  pinionPreload: 'crush-sleeve',
  depthShimPlace: 'under-head-bearing',
  trialBearings: 'set-up',
};

const source = 'demo sheet, invented for the simulated axle';
const mm = (value: number) => ({ value, unit: 'mm' });
const Nm = (value: number) => ({ value, unit: 'N.m' });
const alongAtHeel = { direction: 'along-rotation', at: 'heel' } as const;
const running = (bearings: 'set-up' | 'new', seal: 'in' | 'out') => ({ basis: 'running', seal, bearings }) as const;

export const specSheet: SpecSheet = {
  name: 'Simulated axle',
  rule: 'simple',
  limits: [
    { quantity: 'backlash', basis: alongAtHeel, min: mm(0.15), max: mm(0.25), source },
    { quantity: 'backlash-variation', basis: alongAtHeel, max: mm(0.05), source },
    { quantity: 'ring-gear-runout', max: mm(0.08), source },
    { quantity: 'flange-runout', max: mm(0.05), source },
    { quantity: 'case-end-play', max: mm(0.02), source },
    { quantity: 'case-preload', min: mm(0.15), max: mm(0.25), source },
    { quantity: 'cup-seat', max: mm(0.04), source },
    { quantity: 'ring-gear-seat', max: mm(0.05), source },
    { quantity: 'pinion-torque', basis: running('set-up', 'out'), max: Nm(1), source },
    { quantity: 'pinion-torque', basis: running('new', 'in'), min: Nm(1.8), max: Nm(3.2), source },
    { quantity: 'total-torque', basis: running('new', 'in'), min: Nm(2.1), max: Nm(3.9), source },
    { quantity: 'cap-torque', min: Nm(75), max: Nm(85), source },
    { quantity: 'ring-bolt-torque', min: Nm(95), max: Nm(105), source },
  ],
};
