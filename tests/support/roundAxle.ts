import type { Deed } from '../../src/shared/job/records/notebook.ts';
import { makeUp } from './records/scenario.ts';

const mm = (value: number) => ({ value, unit: 'mm' });
export const Nm = (value: number) => ({ value, unit: 'N.m' });
const source = 'Maker’s manual for the axle, table 4, as the workshop’s longest real source would be written';
const basis = { direction: 'along-rotation', at: 'heel' } as const;

export const roundAxle: Extract<Deed, { kind: 'described' }> = {
  kind: 'described',
  makeUp,
};

export const roundLimits: Extract<Deed, { kind: 'limits-set' }> = {
  kind: 'limits-set',
  specSheet: {
    name: 'Rear axle, 205 mm ring gear',
    rule: 'simple',
    limits: [
      { quantity: 'backlash', basis, min: mm(0.2), max: mm(0.3), source },
      { quantity: 'backlash-variation', basis, max: mm(0.08), source },
      { quantity: 'ring-gear-runout', max: mm(0.05), source },
      {
        quantity: 'pinion-torque',
        basis: { basis: 'running', seal: 'out', bearings: 'set-up' },
        min: Nm(0.4),
        max: Nm(1.2),
        source,
      },
      { quantity: 'cap-torque', min: Nm(70), max: Nm(85), source },
    ],
  },
};
