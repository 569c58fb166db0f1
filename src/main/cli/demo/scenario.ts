import type { MeasuredResult, How } from '../../../shared/job/records/measurement.ts';

/** The demo's build. Everything here is invented, with round dimensions; it is the axle that hardware-sim simulates. */
export const technician = 'Technician A';
export const title = 'Demo axle, 205 mm ring gear';

const mm = (value: number) => ({ value, unit: 'mm' });
const Nm = (value: number) => ({ value, unit: 'N.m' });

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
