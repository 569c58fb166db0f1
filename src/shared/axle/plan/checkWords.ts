import type { Contradiction } from './check.ts';
import type { Places, TrialSeen } from './input.ts';
import { bare, millimetres, signed } from './words.ts';

/** What a contradiction is, in one sentence that ends in what to look at first; and everything worth looking at, in order. */
export function checkSentence(found: Contradiction, places: Places | undefined): string {
  return `${contradicted(found)}: look first ${lookAt[found.kind](places ?? {}, found)}, before another shim.`;
}

export const checkLook = (found: Contradiction, places: Places | undefined): readonly string[] => [
  ...new Set(
    [found.kind, ...found.also, ...alwaysAfter(found)].map((kind) => asked(lookAt[kind](places ?? {}, found))),
  ),
];

/** Whatever it is, these are worth a look. */
const alwaysAfter = ({ kind }: Contradiction): readonly Contradiction['kind'][] =>
  kind === 'something-else' || kind === 'nothing-explains' ? ['flanks-exchanged'] : ['something-else'];

/** "Look which side was thicker." */
const asked = (what: string): string => `Look ${what}.`;

/** What was seen against what was to happen. */
function contradicted(found: Contradiction): string {
  const { kind, told, before, after } = found;
  if (kind === 'nothing-explains') return 'No gear set shows these marks at these places';
  if (kind === 'film-changed')
    return `The marks of trial ${found.between[1]} are less than half the size of those before`;
  if (told.pinionOut === 0 && told.ringAway === 0) return `Nothing was moved and ${went(found)}`;
  if (kind === 'flanks-exchanged') {
    return `${heights(found)} after ${moved(found)}, which fits only with drive and coast exchanged`;
  }
  const byMarks =
    kind === 'pinion-went-back' || kind === 'both-went-back' || kind === 'pinion-stayed' || told.ringAway === 0;
  const backlash = `the backlash went ${fromTo(before, after)}`;
  const said = byMarks ? `${heights(found)} and ${backlash}` : sentenceStart(backlash);
  return `${said} although ${wasTo(found)}`;
}

function went({ before, after }: Contradiction): string {
  const [from, to] = [before.backlash.mean_mm, after.backlash.mean_mm];
  if (Math.abs(from - to) >= 0.03) return `the backlash went ${fromTo(before, after)}`;
  return 'the marks lie elsewhere';
}

function heights({ before, after }: Contradiction): string {
  const side = (name: 'drive' | 'coast'): string =>
    `the ${name} mark went from ${signed(before.pattern[name].crown)} to ${signed(after.pattern[name].crown)} in height`;
  return sentenceStart(`${side('drive')}, ${side('coast')}`);
}

const fromTo = (before: TrialSeen, after: TrialSeen): string =>
  `from ${bare(before.backlash.mean_mm)} to ${millimetres(after.backlash.mean_mm)}`;

const sentenceStart = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/** "the ring gear was to go 0.10 mm away and the pinion 0.05 mm deeper". */
function wasTo({ told }: Contradiction): string {
  const ring =
    told.ringAway === 0
      ? []
      : [`the ring gear was to go ${millimetres(told.ringAway)} ${told.ringAway > 0 ? 'away' : 'closer'}`];
  const pinion =
    told.pinionOut === 0
      ? []
      : [`the pinion was to go ${millimetres(told.pinionOut)} ${told.pinionOut > 0 ? 'out' : 'deeper'}`];
  return [...ring, ...pinion].join(' and ');
}

const moved = (found: Contradiction): string => wasTo(found).replaceAll(' was to go ', ' going ');

type Looking = (places: Places, found: Contradiction) => string;

const sidesOf: Looking = ({ sides }) => {
  if (sides === 'threaded-adjusters') return 'which way the adjusters were turned';
  if (sides === 'flange-shims')
    return 'which side was thicker, because under a flange a thicker shim lets its side out, and whether the two packs were exchanged';
  if (sides === undefined) return 'which side was thicker, or which way the adjusters were turned';
  return 'which side was thicker, and whether the two side packs were exchanged';
};

const howFar: Looking = ({ sides }) =>
  sides === 'threaded-adjusters'
    ? 'how far one notch really moves the ring gear, and how many were turned'
    : sides === undefined
      ? 'how far one notch really moves the ring gear, or how thick both side packs are'
      : 'how thick both side packs really are, measured anew';

const depth: Looking = ({ depth: place }) => {
  if (place === 'under-cage') return 'at the shim under the pinion cage: a thicker one there brings the pinion out';
  if (place === 'behind-head-cup')
    return 'at the shim behind the head bearing cup: a thicker one there sets the pinion deeper';
  if (place === 'under-head') return 'at the shim under the pinion head: a thicker one there sets the pinion deeper';
  return 'where the depth shim sits, and whether a thicker one there sets the pinion deeper or brings it out';
};

const lookAt: Readonly<Record<Contradiction['kind'], Looking>> = {
  'ring-went-back': sidesOf,
  'pinion-went-back': depth,
  'both-went-back': (places, found) => `${depth(places, found)}; then ${sidesOf(places, found)}`,
  'ring-went-farther': howFar,
  'ring-fell-short': (places, found) =>
    `whether the bearing cups are seated and the caps at full torque, and ${howFar(places, found)}`,
  'pinion-stayed': () => 'whether the depth shim was changed at all, and whether the head bearing is pressed home',
  'flanks-exchanged': () => 'which flank was drawn as drive and which as coast',
  'film-changed': () => 'at the film: whether it was wiped off, or much thinner than before',
  'something-else': () =>
    'whether cups and cones are seated, the caps at full torque, the bearings tight, and the backlash felt in the same way as before',
  'nothing-explains': () =>
    'which flank was drawn as drive and which as coast, and whether the mark is one mark and not two',
};
