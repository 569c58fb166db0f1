import type { CheckId } from '../../shared/job/records/checkIds.ts';
import type { MeasuredResult, How } from '../../shared/job/records/measurement.ts';

/** What is read off tools, or seen, on the axle that hardware-sim simulates. Everything here is invented, with round dimensions. */

const mm = (value: number) => ({ value, unit: 'mm' });
const Nm = (value: number) => ({ value, unit: 'N.m' });

const byMicrometer: How = { kind: 'typed', tool: 'Micrometer 0–25 mm', resolution: mm(0.01) };
const byFeeler: How = { kind: 'typed', tool: 'Feeler gauges', resolution: mm(0.01) };
const byDial: How = { kind: 'typed', tool: 'Dial indicator, read by eye', resolution: mm(0.01) };
const byWrench: How = { kind: 'typed', tool: 'Dial torque wrench', resolution: Nm(1) };

/** A reading that no gauge sends, as the notebook takes it. */
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

/** Where a turn of the hand is no gauge's business: what somebody at the simulated stand reads or sees there, in any phase. */
export const readAtTheStand: Readonly<Partial<Record<CheckId, TypedReading>>> = {
  'set-numbers': setNumbers,
  'cup-seat': cupSeat,
  'ring-gear-seat': ringGearSeat,
  'ring-bolt-torque': fastener(100),
  'cap-torque': fastener(80),
  'case-preload': preloadShims(0.2),
  'pinion-nut-torque': fastener(260),
  'adjusters-marked': { how: { kind: 'seen' }, result: { kind: 'notches', ringSide: 61, oppositeSide: 58 } },
  'adjuster-locks': confirmed(true),
  'differential-works': confirmed(true),
  'caps-marked': confirmed(true, 'Punched: one dot on the ring-gear side, two opposite.'),
  'sleeve-new': confirmed(true),
  'nut-locked': {
    how: { kind: 'seen' },
    result: { kind: 'confirmed', yes: true, lockedBy: 'self-locking' },
  },
  'bolts-locked': {
    how: { kind: 'seen' },
    result: { kind: 'confirmed', yes: true, counted: 10, lockedBy: 'thread-locker' },
  },
  'pins-and-clips': confirmed(true),
  oil: {
    how: { kind: 'seen' },
    result: {
      kind: 'confirmed',
      yes: true,
      oil: { name: 'Hypoid gear oil, as the demo sheet says', amount: { value: 1.6, unit: 'L' } },
    },
  },
  'case-tight': confirmed(false, 'The case rocks a little in its bearings.'),
};

/** By how much thicker each side pack is in the final assembly: the preload of the case, mm. */
export const preloadEachSide_mm = 0.1;
