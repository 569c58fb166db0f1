import type { Option } from '../../../parts/Choice.tsx';

/** What can be chosen when an axle is described, in the words of the trade. */
export const axleOptions = {
  gearSet: [
    { value: 'new', words: 'New set' },
    { value: 'used', words: 'Used set going back in' },
  ],
  cut: [
    { value: 'face-milled', words: 'Face-milled' },
    { value: 'face-hobbed', words: 'Face-hobbed' },
    { value: 'not-known', words: 'Not known' },
  ],
  driveFlank: [
    { value: 'convex', words: 'Convex: rear axles and reverse-cut fronts' },
    { value: 'concave', words: 'Concave: standard-cut front axles' },
  ],
  caseAdjustment: [
    { value: 'outboard-shims', words: 'Side shims outboard of the cups' },
    { value: 'inboard-shims', words: 'Side shims under the cones' },
    { value: 'flange-shims', words: 'Side shims under the flange of a retainer or cover' },
    { value: 'threaded-adjusters', words: 'Threaded adjusters' },
  ],
  pinionMount: [
    { value: 'integral', words: 'In the housing' },
    { value: 'caged', words: 'In a cage of its own' },
  ],
  pinionPreload: [
    { value: 'crush-sleeve', words: 'Crush sleeve' },
    { value: 'solid-spacer', words: 'Solid spacer with shims' },
  ],
  depthShimPlace: [
    { value: 'under-head-bearing', words: 'Between pinion head and bearing' },
    { value: 'behind-head-cup', words: 'Behind the head bearing’s cup' },
    { value: 'under-cage', words: 'Under the pinion cage' },
  ],
  trialBearings: [
    { value: 'set-up', words: 'Set-up bearings' },
    { value: 'final', words: 'Final, preloaded bearings' },
  ],
  differential: [
    { value: 'open', words: 'Open' },
    { value: 'limited-slip', words: 'Limited slip' },
    { value: 'locker', words: 'Locker or spool' },
  ],
  shaftsHeldBy: [
    { value: 'flanges', words: 'At the wheels' },
    { value: 'clips', words: 'Clips inside the case' },
  ],
} as const satisfies Record<string, readonly Option<string>[]>;
