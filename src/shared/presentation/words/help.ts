import type { Check, Method } from '../../job/checks/checks.ts';
import type { CheckId } from '../../job/records/checkIds.ts';
import type { HelpPicture } from '../drawing/help/pictures.ts';

/** What is looked at, where the check itself says more than the way it is answered. */
const pictures: Partial<Readonly<Record<CheckId, HelpPicture>>> = {
  'caps-marked': 'caps',
  'cap-torque': 'caps',
  'pinion-nut-torque': 'tighten',
  'sleeve-new': 'sleeve',
  'adjuster-locks': 'notches',
  'nut-locked': 'nut',
  'bolts-locked': 'bolts',
  'pins-and-clips': 'clips',
  'differential-works': 'slip',
  oil: 'oil',
  'case-tight': 'rock',
};

/** The drawing that belongs to a check; none where a drawing would say nothing. */
export const pictureOf = ({ id, method }: Pick<Check, 'id' | 'method'>): HelpPicture | undefined =>
  pictures[id] ?? helpTopics[method].picture;

/** How one thing is taken at the stand, for whoever asks. All of it common practice; the maker's manual goes first. */
export interface HelpTopic {
  readonly title: string;
  readonly picture?: HelpPicture;
  readonly steps: readonly string[];
}

export const helpTopics: Readonly<Record<Method, HelpTopic>> = {
  backlash: {
    title: 'Backlash',
    picture: 'backlash',
    steps: [
      'Caps at full torque. Hold the pinion still.',
      'Stem on the flank of a ring-gear tooth near its heel, in line with the way it moves.',
      'Rock the ring gear against both stops and rest at each for a moment. The bench counts the rocks and says when it is enough.',
      'Lift the stem, turn to the next place, set it down. Four places round the gear or more.',
    ],
  },
  runout: {
    title: 'Runout',
    picture: 'runout',
    steps: [
      'Stem square to the surface, on clean metal, preloaded by a turn of its dial.',
      'At the stations of the backlash: stop at each, and say that it is read. Or one slow whole turn between two presses.',
      'A high spot that stays with the flange is the case, one that goes with the gear is the gear.',
    ],
  },
  torque: {
    title: 'Rotating torque',
    picture: 'torque',
    steps: [
      'Turn the pinion steadily through whole turns. The first pull, the breakaway, is kept apart.',
      'Pinion torque: gears out of mesh, or case out. Total torque: case in, no shafts, brakes off.',
      'Say truly whether the seal is in and which bearings are fitted: a torque counts only against a limit for the same.',
    ],
  },
  play: {
    title: 'End play',
    picture: 'play',
    steps: [
      'Caps at full torque. Stem on the end of the case, in line with its axis.',
      'Push the case home and hold, pull it home and hold, four times. The bench takes each rest and says when it is enough.',
      'Where none can be felt nothing moves: say so. Read off a dial it is entered by hand.',
    ],
  },
  'case-play': {
    title: 'Play in the case bearings',
    picture: 'rock',
    steps: [
      'Grip the ring gear across and rock the case up and down and to and fro. Nothing may knock.',
      'By the indicator: stem on the case beside a bearing, in the direction it is rocked. Push and hold, pull and hold, four times.',
      'With play there, the backlash as found holds it too, and is no target.',
    ],
  },
  spread: {
    title: 'Preload of the case bearings',
    steps: [
      'Where shims preload the case: write down what was added over zero play, both sides together.',
      'By the indicator: base on one bearing bore of the housing, stem on the other, in line with the case. Read it at zero play, and again with the preload in and the caps at full torque.',
      'How much a housing spreads for a preload differs from axle to axle. The maker’s manual says whether its figure is the shim or the spread.',
    ],
  },
  length: {
    title: 'A length read off a tool',
    steps: [
      'Zero the tool first. Read it twice; if the two differ, a third time.',
      'Name the tool once with the smallest step of its scale: it says how sure the number is.',
    ],
  },
  fastener: {
    title: 'Tightening',
    picture: 'bolts',
    steps: [
      'Threads clean, bolts and locker as the maker says; see which way the thread runs.',
      'Crosswise, in about three steps: a third, two thirds, the full torque, every bolt at each.',
      'Go round once more at full torque, and count.',
    ],
  },
  feeler: {
    title: 'Feeler',
    picture: 'feeler',
    steps: [
      'Offer the feeler of the limit at four places. It must not enter anywhere.',
      'Where it enters: out again, look for dirt, a burr or a cup that is not home.',
    ],
  },
  'set-numbers': {
    title: 'Set numbers',
    picture: 'numbers',
    steps: ['Read both numbers as they are cut. Gears are lapped together and are replaced only as a pair.'],
  },
  shims: {
    title: 'Shims by place',
    picture: 'shims',
    steps: [
      'Clean and flatten each shim. Measure each, then the pack squeezed flat: the pack counts.',
      'Lay them out by place, ring-gear side and opposite side apart.',
      'Thickest outside, thin ones between. Never grind a shim.',
    ],
  },
  confirm: {
    title: 'To be seen',
    steps: ['Look at it yourself. Yes by the pedal or the green button; no asks what was found.'],
  },
  notches: {
    title: 'Adjusters',
    picture: 'notches',
    steps: [
      'Caps slackened so far that the adjusters turn with their tool. Take both up until the play is just gone.',
      'Count whole notches from there, each side, ending on a tightening turn.',
      'Caps to full torque, locks in, then backlash.',
    ],
  },
  mark: {
    title: 'The mark',
    picture: 'mark',
    steps: [
      'Clean dry teeth. Three or four teeth in three places, thin and even on both flanks.',
      'Brake the ring gear a little and turn the pinion both ways, a few turns. No finger near the mesh.',
      'Look at both flanks, toe and heel apart. Draw the mark, or photograph it, before anything is moved.',
    ],
  },
};
