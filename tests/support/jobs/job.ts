import { makeUp, specSheet } from '../../../src/main/hosts/simulatedAxle.ts';
import type { MakeUp, ShimPlace } from '../../../src/shared/axle/makeUp.ts';
import type { CheckId } from '../../../src/shared/job/records/checkIds.ts';
import type { SpecSheet } from '../../../src/shared/job/records/specSheet.ts';

/** What the paint shows, where it is drawn, and what the technician says to it. */
export interface MarkToDraw {
  readonly heel: number;
  readonly crown: number;
  readonly judgement: 'accepted' | 'change';
}

/** One axle and what its parts measure: everything a technician brings to the screen. */
export interface Job {
  readonly title: string;
  readonly makeUp: MakeUp;
  readonly limits: SpecSheet;
  /** Whether its sheet is copied from the shop's, where a job like it was done before; else it is typed. */
  readonly sheetKnown?: boolean;
  /** Typed in at the screens, or there already when the walk begins. */
  readonly described: 'at the screens' | 'beforehand';
  readonly units: 'metric' | 'inch';
  /** Packs of the first trial (mm). Later ones are what the swap card asks for. */
  readonly packs_mm: Readonly<Record<ShimPlace, number>>;
  /** One for each time the teeth are painted, in order; the last of them also serves the final assembly. */
  readonly marks: readonly [MarkToDraw, ...MarkToDraw[]];
  /** Lengths in mm and torques in N·m that are read off tools. */
  readonly read: Readonly<Partial<Record<CheckId, number>>>;
}

export const low: MarkToDraw = { heel: -0.05, crown: -0.2, judgement: 'change' };
export const right: MarkToDraw = { heel: -0.05, crown: 0, judgement: 'accepted' };

/** A new set in an axle of the most usual make-up: two trials, the first mark low. */
export const newSet: Job = {
  title: 'WO 12',
  makeUp,
  limits: specSheet,
  described: 'beforehand',
  units: 'metric',
  packs_mm: { 'pinion-depth': 1.8, 'pinion-preload': 1.2, 'ring-side': 5.85, 'opposite-side': 6.15 },
  marks: [low, right],
  read: {
    'case-end-play': 0,
    'case-preload': 0.2,
    'cap-torque': 80,
    'ring-bolt-torque': 100,
    'pinion-nut-torque': 260,
    'depth-reading': 0,
  },
};

/** The limits as somebody types them: what nobody prints (a torque on set-up bearings) is left out. */
export const typedLimits: SpecSheet = {
  ...specSheet,
  limits: specSheet.limits.filter(
    (limit) => !('basis' in limit && 'bearings' in limit.basis && limit.basis.bearings === 'set-up'),
  ),
};

const oneTrial = { ...newSet, marks: [right] } as const;
const withMakeUp = (title: string, change: Partial<MakeUp>): Job => ({
  ...oneTrial,
  title,
  makeUp: { ...makeUp, ...change },
});

/** Axles of other make-ups, each with the steps that only it has. */
export const otherJobs = {
  usedSet: withMakeUp('WO 21', { gearSet: 'used' }),
  /** A removable carrier: adjusters with their notches, a solid spacer. */
  carrier: withMakeUp('WO 22', {
    caseAdjustment: 'threaded-adjusters',
    threadPitch_mm: 1.5,
    notchesPerTurn: 20,
    pinionPreload: 'solid-spacer',
  }),
  adjusters: withMakeUp('WO 23', { caseAdjustment: 'threaded-adjusters', threadPitch_mm: 1.5, notchesPerTurn: 20 }),
  cage: withMakeUp('WO 24', {
    pinionMount: 'caged',
    depthShimPlace: 'under-cage',
    pinionPreload: 'solid-spacer',
    trialBearings: 'final',
  }),
  front: withMakeUp('WO 25', { driveFlank: 'concave' }),
  limitedSlip: withMakeUp('WO 26', { differential: 'limited-slip', shaftsHeldBy: 'clips' }),
  inch: { ...oneTrial, title: 'WO 27', units: 'inch' },
} as const satisfies Readonly<Record<string, Job>>;
