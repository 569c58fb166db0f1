import type { MakeUp } from '../../../shared/axle/makeUp.ts';
import type { MeasuredResult, How } from '../../../shared/job/records/measurement.ts';
import type { SpecSheet } from '../../../shared/job/records/specSheet.ts';

/** The demo's build. Everything here is invented, with round dimensions; it is the axle that hardware-sim simulates. */
export const technician = 'Technician A';
export const title = 'Demo axle, 205 mm ring gear';

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
  name: 'Demo axle',
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

const byMicrometer: How = { kind: 'typed', tool: 'Micrometer 0–25 mm', resolution: mm(0.01) };
const byFeeler: How = { kind: 'typed', tool: 'Feeler gauges', resolution: mm(0.01) };
const byDial: How = { kind: 'typed', tool: 'Dial indicator, read by eye', resolution: mm(0.01) };
const byWrench: How = { kind: 'typed', tool: 'Dial torque wrench', resolution: Nm(1) };

export interface TypedReading {
  readonly how: How;
  readonly result: MeasuredResult;
}

/** Packs as the micrometer reads them, in hundredths. */
export function shimsMeasured(shims: {
  readonly head_mm: number;
  readonly ringSide_mm: number;
  readonly otherSide_mm: number;
}): TypedReading {
  const pack = (place: 'pinion-depth' | 'ring-side' | 'opposite-side', value: number) => {
    const measured = mm(Math.round(value * 100) / 100);
    return { place, each: [measured], pack: measured };
  };
  return {
    how: byMicrometer,
    result: {
      kind: 'shims',
      packs: [
        pack('pinion-depth', shims.head_mm),
        pack('ring-side', shims.ringSide_mm),
        pack('opposite-side', shims.otherSide_mm),
      ],
    },
  };
}

export const setNumbers: TypedReading = {
  how: { kind: 'seen' },
  result: { kind: 'set-numbers', pinion: 'D-041', ringGear: 'D-041' },
};
export const cupSeat: TypedReading = {
  how: byFeeler,
  result: { kind: 'feeler', thickness: mm(0.04), entered: false, places: 4 },
};
export const ringGearSeat: TypedReading = {
  how: byFeeler,
  result: { kind: 'feeler', thickness: mm(0.05), entered: false, places: 4 },
};
export const endPlay = (play_mm: number): TypedReading => ({
  how: byDial,
  result: { kind: 'quantity', value: mm(Math.round(play_mm * 100) / 100) },
});
export const preloadShims = (added_mm: number): TypedReading => ({
  how: byMicrometer,
  result: { kind: 'quantity', value: mm(Math.round(added_mm * 100) / 100) },
});
export const fastener = (torque_Nm: number): TypedReading => ({
  how: byWrench,
  result: { kind: 'quantity', value: Nm(torque_Nm) },
});
export const confirmed = (yes: boolean, note?: string): TypedReading => ({
  how: { kind: 'seen' },
  result: { kind: 'confirmed', yes, ...(note === undefined ? {} : { note }) },
});
