import { showText, type UnitSystem } from '../../basics/show.ts';
import { insideOf } from '../../basics/recorded.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import type { SwapLine, SwapPlanned } from '../records/swap.ts';
import { moveByNotches } from '../../axle/arithmetic/adjusters.ts';
import { depthPlaceOf } from '../planning/positions.ts';
import type { Place } from '../../axle/plan/sight.ts';

const length = (size: number, system: UnitSystem): string => showText(Math.abs(size), 'length', system);
const nothing = 0.0005;

/** Where the pack of a line sits, in words of the stand. */
export function whereWords(makeUp: MakeUp, { place }: Pick<SwapLine, 'place'>): string {
  if (place === 'pinion-depth') {
    const by = {
      'under-head': 'under the pinion head bearing',
      'behind-head-cup': 'behind the head bearing’s cup',
      'under-cage': 'under the pinion cage',
    };
    return by[depthPlaceOf(makeUp)];
  }
  if (place === 'pinion-preload') return 'in the pinion preload stack';
  const side = place === 'ring-side' ? 'on the ring-gear side' : 'on the opposite side';
  return `${sidePlaces[makeUp.caseAdjustment]} ${side}`;
}

const sidePlaces: Readonly<Record<MakeUp['caseAdjustment'], string>> = {
  'outboard-shims': 'outside the case bearing’s cup',
  'inboard-shims': 'under the case bearing’s cone',
  'flange-shims': 'under the flange of the retainer',
  'threaded-adjusters': 'at the adjuster',
};

/** "0.100 mm thinner". */
export function changeWords(line: SwapLine, system: UnitSystem): string {
  const change = line.wanted_mm - insideOf(line.out);
  return `${length(change, system)} ${change > 0 ? 'thicker' : 'thinner'}`;
}

/** Both movements in one breath: "The pinion comes out 0.100 mm; the ring gear stays." */
export function moveWords({ pinionOut, ringAway }: Place, system: UnitSystem): string {
  const pinion =
    Math.abs(pinionOut) < nothing
      ? 'The pinion stays'
      : `The pinion ${pinionOut > 0 ? 'comes out' : 'goes deeper'} ${length(pinionOut, system)}`;
  const ring =
    Math.abs(ringAway) < nothing
      ? 'the ring gear stays'
      : `the ring gear goes ${length(ringAway, system)} ${ringAway > 0 ? 'away' : 'closer'}`;
  return `${pinion}; ${ring}.`;
}

/** The turns of the adjusters in their order, every side ending on tightening. */
export const notchWords = (notches: number): readonly string[] =>
  moveByNotches(notches).map(
    ({ side, turn, notches: count }) =>
      `${turn === 'loosen' ? 'Loosen' : 'Tighten'} the ${side === 'ring-gear side' ? 'ring-gear side' : 'other side'} by ${count} ${count === 1 ? 'notch' : 'notches'}.`,
  );

/** What is done with adjusters whose notch nobody knows: the backlash says when the ring gear has gone far enough. */
export function byBacklashWords(ringAway_mm: number, system: UnitSystem): string {
  const away = ringAway_mm > 0;
  const [first, then] = away ? ['ring-gear', 'other'] : ['other', 'ring-gear'];
  return `About ${length(ringAway_mm, system)} ${away ? 'away' : 'closer'}: loosen the ${first} side by one notch, tighten the ${then} side by one, and read the backlash. That says what a notch does; go on until the backlash is as expected.`;
}

/** What else the change touches, said before anything is taken apart. */
export function swapNotes(makeUp: MakeUp, swap: SwapPlanned, system: UnitSystem): readonly string[] {
  const depth = swap.lines.find(({ place }) => place === 'pinion-depth');
  if (depth === undefined || makeUp.pinionPreload === 'crush-sleeve') return [];
  const change = depth.wanted_mm - insideOf(depth.out);
  const same = `${change > 0 ? 'add to' : 'take from'} the preload stack the same ${length(change, system)}`;
  if (makeUp.depthShimPlace === 'behind-head-cup') {
    return [`The change behind the cup shifts the preload too: ${same}, or the bearings turn tighter or looser by it.`];
  }
  if (makeUp.depthShimPlace === 'under-cage') return [];
  return [
    `If the preload stack stands on a shoulder of the pinion, ${same}; if it stands on the head bearing’s cone, leave it.`,
  ];
}
