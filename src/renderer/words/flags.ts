import type { readOnce } from '../../shared/job/captures/readOnce.ts';
import type { RunoutFlag } from '../../shared/measuring/runout/runoutMeasured.ts';
import type { TorqueFlag } from '../../shared/measuring/torque/flags.ts';

/** What a flag on a runout or a torque means at the stand, and what to do about it. */
const sentences: Readonly<Record<RunoutFlag | TorqueFlag | typeof readOnce, string>> = {
  'read-once': 'Read once off a dial: its doubt is the step of the scale alone.',
  'start-not-seen': 'The gauge was not seen at rest before the pull, so breakaway is not known.',
  'zero-taken-off': 'At rest the gauge did not read nought; what it read there is taken off.',
  'zero-moved': 'The gauge read otherwise at rest before the pull than after it: zero it and pull again.',
  'zero-not-seen': 'The gauge was not seen at rest, so its zero is not known: let go once.',
  seating: 'The torque still changes from turn to turn: turn on until it settles.',
  'not-steady': 'It swings by more than half its mean: a notch, a bent shaft, or a jerky pull.',
  coarse: 'This gauge is coarse for so small a torque.',
  spike: 'Single wild readings were left out.',
  drift: 'It does not read the same a turn later: base or gear moved.',
  'unit-jump': 'The readings jumped as if the unit or the turn count had changed.',
  gap: 'Readings are missing in this stretch.',
  'turn-assumed': 'Taken as one turn, because nothing marked where it began and ended.',
  'stations-unclear': 'The stations could not be told apart, so it is judged as one turn.',
  'equal-spacing-assumed': 'The stations are taken as equally spaced.',
  'more-between': 'Between the stations the stem rode beyond them.',
  'few-readings': 'Few readings over the turn: turn more slowly.',
  'stem-lifted': 'The stem left the gear before the last station.',
  'correlated-noise': 'The readings wander while it turns, and the doubt counts that: turn on.',
  'not-compared': 'No place was read twice, so that creep of the base would not show.',
  'part-turn': 'It may not have been a whole turn, and the doubt counts that: turn further, or mark each turn.',
  'end-of-travel':
    'The readings stand at one end of what was read: the stem may hang free there, or be at the end of its travel, and the runout be larger. Set it with more room both ways.',
  held: 'The readings stood at their highest or lowest as a live gauge hardly does: it may hold that value, or be at the end of its range. Look that it shows its live reading.',
  'two-lobes-can-vanish': 'A gear warped in two lobes could look true at these stations: take eight.',
};

/** A record of another time may carry a flag that is not known any more: it is shown as it is, never hidden. */
const recorded: Readonly<Record<string, string | undefined>> = sentences;

/** What the flags of a recorded result mean, one sentence each. */
export const flagSentences = (flags: readonly string[]): string =>
  flags.map((flag) => recorded[flag] ?? `${flag.replaceAll('-', ' ')}.`).join(' ');
