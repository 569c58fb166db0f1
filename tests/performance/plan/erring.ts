import type { TrialSeen } from '../../../src/shared/axle/plan/input.ts';
import type { Stood, Subject, Way } from './subject.ts';

/** What a hand may do wrong once: where the axle then really stands, and what is written down of the marks. */
const slips = {
  'ring gear the wrong way': { stands: ({ pinionOut, ringAway }) => ({ pinionOut, ringAway: -ringAway }) },
  'depth shim the wrong way': { stands: ({ pinionOut, ringAway }) => ({ pinionOut: -pinionOut, ringAway }) },
  'notch twice the size': { stands: ({ pinionOut, ringAway }) => ({ pinionOut, ringAway: 2 * ringAway }) },
  'drive and coast exchanged': {
    stands: (place) => place,
    reads: ({ pattern, ...seen }) => ({ ...seen, pattern: { drive: pattern.coast, coast: pattern.drive } }),
  },
} as const satisfies Record<string, Slip>;

interface Slip {
  readonly stands: (told: Stood) => Stood;
  readonly reads?: (seen: TrialSeen) => TrialSeen;
}

/** Moves smaller than this nobody could notice: they are lost in the reading (mm). */
const enough = 0.05;

export interface Noticed {
  readonly slip: string;
  readonly noticed: boolean;
}

/** One change done wrong after the first trial: whether the way asks to look before another shim. */
export function erring(subject: Subject, way: Way): readonly Noticed[] {
  const first = subject.tryAt({ pinionOut: 0, ringAway: 0 }, 0);
  const { stay, alarm, place } = way(subject, [first]);
  if (stay || alarm !== undefined) return [];
  return Object.entries<Slip>(slips).flatMap(([slip, { stands, reads }]) => {
    const really = stands(place);
    const off = Math.abs(really.pinionOut - place.pinionOut) + Math.abs(really.ringAway - place.ringAway);
    if (reads === undefined && off < enough) return [];
    const seen = subject.tryAt(really, 1);
    const written = { ...(reads?.(seen) ?? seen), pinionOut_mm: place.pinionOut, ringAway_mm: place.ringAway };
    return [{ slip, noticed: way(subject, [first, written]).alarm !== undefined }];
  });
}
