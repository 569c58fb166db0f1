import type { MakeUp } from '../../axle/makeUp.ts';
import type { CaptureSettings } from '../records/measurement.ts';
import type { LimitedQuantity } from '../records/specSheet.ts';
import { type CheckId, checkIds, type Phase } from '../records/checkIds.ts';

/** How a check is answered at the stand; decides which screen is shown and which result is recorded. */
export type Method =
  | 'backlash'
  | 'runout'
  | 'torque'
  | 'play'
  | 'case-play'
  | 'spread'
  | 'length'
  | 'fastener'
  | 'feeler'
  | 'set-numbers'
  | 'shims'
  | 'confirm'
  | 'notches'
  | 'mark';

/** What a gauge can be asked for to answer a check of each method; nothing where no gauge answers. */
export const streamOf: Readonly<Partial<Record<Method, CaptureSettings['kind']>>> = {
  backlash: 'backlash',
  runout: 'runout',
  torque: 'torque',
  play: 'play',
  'case-play': 'play',
  spread: 'spread',
};

type Need = 'required' | 'optional' | 'not-asked';
type Rule = Need | ((makeUp: MakeUp) => Need);

export interface Check {
  readonly id: CheckId;
  readonly title: string;
  readonly method: Method;
  /** Limits of the spec sheet this check is judged by. */
  readonly limits: readonly LimitedQuantity[];
  /** Whether a gate needs a limit for it: without the maker's figure nobody can call the reading good. */
  readonly limitNeeded: boolean;
  /**
   * Whether one reading serves all later trials: what another shim cannot change, and what could be read again only
   * by taking the ring gear off once more. A new reading takes its place at any time.
   */
  readonly carries: boolean;
  /** What to do, in one breath, for a technician who knows the trade. */
  readonly how: string;
  readonly need: Readonly<Record<Phase, Rule>>;
}

const spacer: Rule = (makeUp) => (makeUp.pinionPreload === 'solid-spacer' ? 'required' : 'optional');
const sleeve: Rule = (makeUp) => (makeUp.pinionPreload === 'crush-sleeve' ? 'required' : 'not-asked');
const adjusters: Rule = (makeUp) => (makeUp.caseAdjustment === 'threaded-adjusters' ? 'required' : 'not-asked');
const clips: Rule = (makeUp) => (makeUp.shaftsHeldBy === 'clips' ? 'required' : 'optional');
const slipOrLock: Rule = ({ differential }) =>
  differential === 'limited-slip' || differential === 'locker' ? 'required' : 'not-asked';
const usedSet: Rule = (makeUp) => (makeUp.gearSet === 'used' ? 'required' : 'optional');
/** A used set going back need not leave its case: what lies under the ring gear is looked at where there is a reason to. */
const newSet: Rule = (makeUp) => (makeUp.gearSet === 'new' ? 'required' : 'optional');
/** A caged pinion is built and preloaded on its final bearings before the trials: there its torque is a preload, and counts. */
const trialNutTorque: Rule = (makeUp) => (makeUp.trialBearings === 'final' ? 'required' : 'not-asked');
/** Side shims over final bearings preload the case in a trial already; adjusters are brought to zero play first in any case. */
const trialEndPlay: Rule = ({ trialBearings, caseAdjustment }) =>
  trialBearings === 'final' && caseAdjustment !== 'threaded-adjusters' ? 'optional' : 'required';

type Row = Omit<Check, 'id' | Usual> & Partial<Pick<Check, Usual>>;
type Usual = 'limitNeeded' | 'limits' | 'carries';
const usual: Pick<Check, Usual> = { limits: [], limitNeeded: false, carries: false };
/** Asked still together, as it comes apart, in a trial, in the final assembly. */
const need = (asFound: Rule, stripping: Rule, trial: Rule, final: Rule): Check['need'] => ({
  'as-found': asFound,
  stripping,
  trial,
  final,
});

/** The one table of measurement × phase × make-up. Order and gates are common practice; the maker's manual for the axle goes before it. */
const table: Record<CheckId, Row> = {
  'caps-marked': {
    title: 'Bearing caps marked',
    method: 'confirm',
    how: 'Mark each cap for its side and way up, and each bearing cup for its side, before the first bolt is loosened.',
    need: need('not-asked', 'required', 'not-asked', 'not-asked'),
  },
  'adjusters-marked': {
    title: 'Adjusters as found',
    method: 'notches',
    how: 'Mark where both adjusters stand against the housing. Count the notches of each as it comes out, until its thread lets go.',
    need: need('not-asked', adjusters, 'not-asked', 'not-asked'),
  },
  'set-numbers': {
    title: 'Set numbers',
    method: 'set-numbers',
    carries: true,
    how: 'Read the set number on the pinion head and on the ring gear. A set is replaced only as a pair.',
    need: need('not-asked', 'optional', 'required', 'not-asked'),
  },
  shims: {
    title: 'Shims by place',
    method: 'shims',
    how: 'Measure each shim, then the pack as clamped. Keep the two sides apart.',
    need: need('not-asked', 'required', 'required', 'required'),
  },
  'cup-seat': {
    title: 'Bearing cup seats',
    method: 'feeler',
    limits: ['cup-seat'],
    how: 'Offer the feeler behind each bearing cup. It must not enter.',
    need: need('not-asked', 'not-asked', 'required', 'optional'),
  },
  'depth-reading': {
    title: 'Pinion depth reading',
    method: 'length',
    how: 'Read the depth tool, or leave this out where the shim came from the etched marks.',
    need: need('not-asked', 'not-asked', 'optional', 'not-asked'),
  },
  'flange-runout': {
    title: 'Case flange runout',
    method: 'runout',
    carries: true,
    limits: ['flange-runout'],
    limitNeeded: true,
    how: 'Ring gear off, case turning in its bearings, stem on the flange face. One slow turn.',
    need: need('not-asked', 'not-asked', newSet, 'not-asked'),
  },
  'ring-gear-seat': {
    title: 'Ring gear seat',
    method: 'feeler',
    carries: true,
    limits: ['ring-gear-seat'],
    how: 'Offer the feeler between ring gear and flange at four places. It must not enter.',
    need: need('not-asked', 'not-asked', newSet, 'not-asked'),
  },
  'ring-bolt-torque': {
    title: 'Ring gear bolts',
    method: 'fastener',
    carries: true,
    limits: ['ring-bolt-torque'],
    how: 'Tighten crosswise in steps. Check which way the thread runs first.',
    need: need('not-asked', 'not-asked', newSet, 'not-asked'),
  },
  'ring-gear-runout': {
    title: 'Ring gear runout',
    method: 'runout',
    carries: true,
    limits: ['ring-gear-runout'],
    limitNeeded: true,
    how: 'Stem on the back face, square to it, where it can be reached. Turn the ring gear one slow turn.',
    need: need(usedSet, 'not-asked', 'required', 'optional'),
  },
  'sleeve-new': {
    title: 'New crush sleeve and nut',
    method: 'confirm',
    how: 'A crush sleeve is used once. Confirm that sleeve and nut are new.',
    need: need('not-asked', 'not-asked', 'not-asked', sleeve),
  },
  'pinion-nut-torque': {
    title: 'Pinion nut torque',
    method: 'fastener',
    limits: ['pinion-nut-torque'],
    how: 'Hold the flange. With a crush sleeve, write down the torque at which the nut still turned.',
    need: need('not-asked', 'not-asked', trialNutTorque, spacer),
  },
  'pinion-torque': {
    title: 'Pinion rotating torque',
    method: 'torque',
    limits: ['pinion-torque'],
    limitNeeded: true,
    how: 'Gears out of mesh, or case out. Turn the pinion steadily through whole turns. The first pull is breakaway and is kept apart.',
    need: need('not-asked', 'required', 'required', 'required'),
  },
  'case-end-play': {
    title: 'Case end play',
    method: 'play',
    limits: ['case-end-play'],
    how: 'Caps at full torque, stem on the end of the case in line with its axis. Push, hold, pull, hold. For a trial there must be no play left.',
    need: need('optional', 'not-asked', trialEndPlay, 'not-asked'),
  },
  'case-preload': {
    title: 'Case bearing preload',
    method: 'spread',
    limits: ['case-preload'],
    limitNeeded: true,
    how: 'Write down the shim added over zero play on both sides together, or the spread of the case.',
    need: need('not-asked', 'not-asked', 'not-asked', 'required'),
  },
  'cap-torque': {
    title: 'Bearing caps',
    method: 'fastener',
    limits: ['cap-torque'],
    how: 'Each cap on its own side and way up, tightened fully before any backlash is read.',
    need: need('not-asked', 'not-asked', 'required', 'required'),
  },
  'case-tight': {
    title: 'Case bearings without play',
    method: 'case-play',
    how: 'Rock the case by hand, or push and pull it with the stem on it. Loose case bearings spoil the backlash that is read.',
    need: need('required', 'not-asked', 'not-asked', 'not-asked'),
  },
  backlash: {
    title: 'Backlash',
    method: 'backlash',
    limits: ['backlash', 'backlash-variation'],
    limitNeeded: true,
    how: 'Hold the pinion. Stem near the heel, in line with the turn. Rock the ring gear at four stations or more.',
    need: need('required', 'not-asked', 'required', 'required'),
  },
  'total-torque': {
    title: 'Total rotating torque',
    method: 'torque',
    limits: ['total-torque'],
    limitNeeded: true,
    how: 'Gears in mesh, no shafts, brakes off. Turn the pinion steadily through whole turns of it.',
    need: need(usedSet, 'not-asked', 'not-asked', 'required'),
  },
  'adjuster-locks': {
    title: 'Adjuster locks',
    method: 'confirm',
    how: 'Confirm that both adjuster locks are in place.',
    need: need('not-asked', 'not-asked', 'not-asked', adjusters),
  },
  'nut-locked': {
    title: 'Pinion nut locked',
    method: 'confirm',
    how: 'Staked, pinned or a new locking nut, as the maker says. A nut that was backed off is not used again where it locks by itself.',
    need: need('not-asked', 'not-asked', 'not-asked', 'required'),
  },
  'bolts-locked': {
    title: 'Ring gear bolts locked',
    method: 'confirm',
    how: 'All bolts counted and at full torque, tightened crosswise in steps; new bolts, thread locker or lock plates as the maker says.',
    need: need('not-asked', 'not-asked', 'not-asked', 'required'),
  },
  'pins-and-clips': {
    title: 'Cross pin and shaft clips',
    method: 'confirm',
    how: 'The cross pin with its bolt or pin, and the clips that hold the shafts, where this axle has them.',
    need: need('not-asked', 'not-asked', 'not-asked', clips),
  },
  'differential-works': {
    title: 'Limited slip or locker works',
    method: 'confirm',
    how: 'Shafts in, both wheels off the floor, engine off: turn one wheel by hand with the other held. A limited slip drags and slips; a locker turns both sides, or lets go, as the maker says.',
    need: need('not-asked', 'not-asked', 'not-asked', slipOrLock),
  },
  oil: {
    title: 'Oil',
    method: 'confirm',
    how: 'Filled with the oil the maker names, and additive where the differential needs it. See that the breather is free.',
    need: need('not-asked', 'not-asked', 'not-asked', 'required'),
  },
  mark: {
    title: 'Mark on the teeth',
    method: 'mark',
    how: 'Paint three or four teeth in three places, turn both ways under drag, and draw what you see on both flanks.',
    need: need(usedSet, 'not-asked', 'required', 'required'),
  },
};

/** What an axle with adjusters is asked in its own words: it has no side shims, and preloads its case by notches. */
const byAdjusters: Readonly<Partial<Record<CheckId, Partial<Pick<Check, 'method' | 'how'>>>>> = {
  shims: { how: 'Measure each shim, then the pack as clamped. The sides have adjusters.' },
  'cap-torque': {
    how: 'Each cap on its own side and way up. The adjusters are turned with the caps slackened, and the caps tightened fully before any backlash is read.',
  },
  'case-end-play': {
    how: 'Adjusters taken up to zero play, caps at full torque: push the case to and fro along its axis. For a trial there must be no play left.',
  },
  'case-preload': {
    method: 'notches',
    how: 'Caps slackened, from zero play: count the notches by which each adjuster is tightened. Then the caps to full torque, and backlash read again.',
  },
};

const withSlip: Readonly<Partial<Record<CheckId, Partial<Pick<Check, 'how'>>>>> = {
  'total-torque': {
    how: 'Gears in mesh, both shafts out, brakes off: a limited slip or a locker drags through a shaft. Turn the pinion steadily through whole turns of it.',
  },
};

/** A check in the words, and by the method, of this make-up. */
export function fitted<One extends Check>(check: One, makeUp: MakeUp | undefined): One {
  if (makeUp === undefined) return check;
  return {
    ...check,
    ...(makeUp.caseAdjustment === 'threaded-adjusters' ? byAdjusters[check.id] : {}),
    ...(makeUp.differential === 'limited-slip' || makeUp.differential === 'locker' ? withSlip[check.id] : {}),
  };
}

/** Every check in the order in which it is done. */
export const checks: readonly Check[] = checkIds.map((id) => ({ ...usual, ...table[id], id }));

export const checkOf = (id: CheckId, makeUp?: MakeUp): Check => fitted({ ...usual, ...table[id], id }, makeUp);

/** Whether a check is asked for in this phase of an axle of this make-up. */
export function needOf(check: Check, phase: Phase, makeUp: MakeUp): Need {
  const rule = check.need[phase];
  return typeof rule === 'string' ? rule : rule(makeUp);
}

/** The checks of one phase, in order, without those that are not asked. */
export const checksOf = (
  phase: Phase,
  makeUp: MakeUp,
): readonly (Check & { readonly needed: Exclude<Need, 'not-asked'> })[] =>
  checks.flatMap((check) => {
    const needed = needOf(check, phase, makeUp);
    return needed === 'not-asked' ? [] : [{ ...fitted(check, makeUp), needed }];
  });

/** Stations below which backlash is not known round the gear: four, as most manuals ask (references disagree between three and eight). */
export const fewestStations = 4;
