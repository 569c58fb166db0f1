import type { Side, TrialSeen } from './input.ts';
import type { Move } from './checkAnswers.ts';

/** What may have happened between two trials; `as-told` is what the shims say. */
export type StoryKind =
  | 'as-told'
  | 'ring-went-back'
  | 'pinion-went-back'
  | 'both-went-back'
  | 'ring-went-farther'
  | 'ring-fell-short'
  | 'pinion-stayed'
  | 'flanks-exchanged'
  | 'something-else';

/** One explanation of two trials: how far things really moved, and which flanks the later marks are of. */
export interface Story {
  readonly kind: StoryKind;
  /** How often, before anything was read (own choice; a hand errs once in ten changes: own judgement). */
  readonly prior: number;
  readonly move: Move;
  /** Which flank each later mark was read off. */
  readonly readOff: ReadOff;
}

type ReadOff = Readonly<Record<Side, Side>>;
const itsOwn: ReadOff = { drive: 'drive', coast: 'coast' };

/** Movements smaller than this leave nothing to be done the wrong way (mm). */
const something = 0.01;

/** The movement between two trials as the shims have it. */
export const toldMove = (before: TrialSeen, after: TrialSeen): Move => ({
  pinionOut: after.pinionOut_mm - before.pinionOut_mm,
  ringAway: after.ringAway_mm - before.ringAway_mm,
});

/** Every explanation that differs from what was told. What cannot differ goes to `as-told`. */
export function storiesOf(told: Move): readonly Story[] {
  const ring = Math.abs(told.ringAway) >= something;
  const pinion = Math.abs(told.pinionOut) >= something;
  const by = (kind: StoryKind, prior: number, ofPinion: number, ofRing: number): Story => ({
    kind,
    prior,
    move: { pinionOut: told.pinionOut * ofPinion, ringAway: told.ringAway * ofRing },
    readOff: itsOwn,
  });
  const others = [
    ...(ring
      ? [
          by('ring-went-back', 0.025, 1, -1),
          ...farther.map(({ times, prior }) => by('ring-went-farther', prior, 1, times)),
        ]
      : []),
    ...(ring ? [by('ring-fell-short', 0.004, 1, 0.25), by('ring-fell-short', 0.004, 1, 0)] : []),
    ...(pinion ? [by('pinion-went-back', 0.025, -1, 1), by('pinion-stayed', 0.005, 0, 1)] : []),
    ...(ring && pinion ? [by('both-went-back', 0.01, -1, -1)] : []),
    { ...by('flanks-exchanged', 0.012, 1, 1), readOff: { drive: 'coast', coast: 'drive' } as const },
    { ...by('flanks-exchanged', 0.003, 1, 1), readOff: { drive: 'coast', coast: 'coast' } as const },
    { ...by('flanks-exchanged', 0.003, 1, 1), readOff: { drive: 'drive', coast: 'drive' } as const },
    by('something-else', 0.005, 1, 1),
  ];
  const rest = others.reduce((sum, { prior }) => sum + prior, 0);
  return [by('as-told', 1 - rest, 1, 1), ...others];
}

/** A notch of another size than was entered, or inches for millimetres of a feeler. */
const farther = [
  { times: 2, prior: 0.025 },
  { times: 3, prior: 0.006 },
  { times: 4, prior: 0.006 },
] as const;
