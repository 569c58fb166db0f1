import type { Flag, Refusal } from './measured.ts';

/** What a refusal means at the stand, and what to look at. The reason's own word stands beside it. */
export const whyRefused: Readonly<Record<Refusal, string>> = {
  drift:
    'Both rests moved together: the indicator base or the pinion has moved. Make both fast and take this station again.',
  'not-held': 'The rests creep: the gear was not held against its stops. Press and hold at each end and take it again.',
  'end-of-travel':
    'The stem was at an end of its travel at one of the rests. Give it more room there and take this station again.',
  'one-sided': 'Only one side was pressed home. Rock fully to both stops, hold at each, and take this station again.',
  'not-repeatable':
    'The rocks do not repeat. Check that the pinion is held and the indicator is fast, and take this station again.',
  'unit-jump':
    'The readings jumped as if the unit or the turn count had changed. Check the gauge and take this station again.',
  gap: 'Readings are missing here and the rocks before and after do not join up. Take this station again.',
};

/** What a flag means on a station that has its number all the same. */
export const whyFlagged: Readonly<Partial<Record<Flag, string>>> = {
  gap: 'Readings are missing within this station; no rock was counted across the gap.',
  drift:
    'The indicator base or the pinion moved at this station. What moved evenly is taken out of the number; make both fast.',
  'one-sided':
    'One side repeats and the other does not. The number counts that in its doubt; press home to both stops.',
  'correlated-noise':
    'The readings wandered while the gear was held: something sways under the indicator. The doubt counts what shows.',
  'not-repeatable': 'The rests differ more than hands usually make them. The number counts that in its doubt.',
};

/** @param step how far apart the two places are, mm, farther out positive */
export const stoodTwiceWhy = (step: number): string =>
  `The gear stood at two places at its stops, ${Math.abs(step).toFixed(3)} mm apart: ${step > 0 ? 'the pinion gave' : 'it fell back when it was let go'}. Hold the pinion fast, hold the gear against each stop, and take this station again.`;

export const tooFewRocks = (rocks: number, least: number): string =>
  `${rocks === 0 ? 'No whole rock' : rocks === 1 ? 'Only one rock' : `Only ${rocks} rocks`} here; it takes at least ${least}. Take this station again.`;

/** A number no set runs with. */
export const onlyShakes =
  'Hardly any movement: a stand that shakes makes as much. Rock from stop to stop; where the gears do not rock at all, move the ring gear away first.';
