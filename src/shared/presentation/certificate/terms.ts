import type { Assembly } from '../../job/records/build.ts';
import type { MakeUp, ShimPlace } from '../../axle/makeUp.ts';
import type { noteTopics } from '../../job/records/notebook.ts';
import type { Rule } from '../../job/records/specSheet.ts';

/** Words of the trade for what a record keeps as short codes, as a certificate writes them. */

export const placeTerms: Readonly<Record<ShimPlace, string>> = {
  'pinion-depth': 'Pinion depth',
  'pinion-preload': 'Pinion preload',
  'ring-side': 'Ring-gear side',
  'opposite-side': 'Opposite side',
};

export const topicTerms: Readonly<Record<(typeof noteTopics)[number], string>> = {
  complaint: 'Complaint',
  noise: 'Noise',
  'road-test': 'Road test',
  oil: 'Oil',
  odometer: 'Odometer',
  customer: 'Customer',
  plate: 'Number plate',
  note: 'Note',
};

export const bearingTerms: Readonly<Record<Assembly['bearings'], string>> = {
  'set-up': 'set-up bearings',
  new: 'new bearings',
  used: 'used bearings',
};

export const ruleTerms: Readonly<Record<Rule, string>> = {
  simple: 'The reading decides. Where a limit lies inside a reading’s uncertainty, it is marked as too close to call.',
  guarded:
    'The reading decides with its uncertainty. Where a limit lies inside it, there is no verdict: too close to call.',
};

const cutTerms: Readonly<Record<MakeUp['cut'], string>> = {
  'face-milled': 'face-milled',
  'face-hobbed': 'face-hobbed',
  'not-known': 'cut not known',
};

const adjustmentTerms: Readonly<Record<MakeUp['caseAdjustment'], string>> = {
  'outboard-shims': 'side shims outboard of the cups',
  'inboard-shims': 'side shims under the cones',
  'flange-shims': 'side shims under the flanges of the retainers',
  'threaded-adjusters': 'threaded adjusters',
};

const depthTerms: Readonly<Record<MakeUp['depthShimPlace'], string>> = {
  'under-head-bearing': 'between pinion head and bearing',
  'behind-head-cup': 'behind the head bearing’s cup',
  'under-cage': 'under the pinion cage',
};

/** The make-up of the axle, as name and words. */
export const makeUpTerms = (makeUp: MakeUp): readonly (readonly [string, string])[] => [
  [
    'Gear set',
    `${makeUp.gearSet} set, ${makeUp.pinionTeeth} and ${makeUp.ringTeeth} teeth, ${cutTerms[makeUp.cut]}, drive side ${makeUp.driveFlank}`,
  ],
  [
    'Pinion',
    `${makeUp.pinionMount === 'caged' ? 'in a cage of its own' : 'in the housing'}, ${
      makeUp.pinionPreload === 'crush-sleeve' ? 'crush sleeve' : 'solid spacer with shims'
    }, depth shims ${depthTerms[makeUp.depthShimPlace]}`,
  ],
  ['Case', adjustmentTerms[makeUp.caseAdjustment]],
  ['Trials', makeUp.trialBearings === 'set-up' ? 'on set-up bearings' : 'on the final, preloaded bearings'],
];
