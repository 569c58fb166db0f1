import { type Edge, isBound, type Mark } from './mark.ts';

/** What a movement between two readings amounts to. */
export interface Movement {
  /** New minus old, as a fraction: to the heel, to the crown. */
  readonly by: number;
  /** Expanded uncertainty of the difference; from both readings, or from what is assumed of a drawn mark. */
  readonly U95: number;
  /** Whether the difference is more than the two readings can be apart by themselves. */
  readonly verdict: 'same' | 'moved' | 'bound';
  /** What an edge leaves of it: `exact`, or only a bound on the true movement, or nothing. */
  readonly knows: 'exact' | 'at-least' | 'at-most' | 'nothing';
}

export interface Comparison {
  /** Shared area over the area of both together, 0…1, of the marks' shapes on the flank. */
  readonly overlap: number;
  readonly heel: Movement;
  readonly crown: Movement;
  /** Whether all of it lies within what reading can tell. */
  readonly withinReading: boolean;
  readonly warnings: readonly string[];
}

/** How well a mark drawn by hand is placed, where nobody said: own assumption, no source. */
export const drawnByHand = { heel: 0.06, crown: 0.08 } as const;

/**
 * Compares two marks on the same flank.
 * @param then the earlier mark, or the set's own.
 * @param faceOverHeight face width over tooth height, which turns the slant into fractions; 4 is common.
 */
export function compareMarks(now: Mark, then: Mark, faceOverHeight = 4): Comparison {
  const [heel, crown] = [movement(now, then, 'heel'), movement(now, then, 'crown')];
  return {
    overlap: overlapOf(now, then, faceOverHeight),
    heel,
    crown,
    withinReading: heel.verdict === 'same' && crown.verdict === 'same',
    warnings: [...madeDifferently(now, then), ...assumed(now, then), ...bounds(heel, crown)],
  };
}

function movement(now: Mark, then: Mark, along: 'heel' | 'crown'): Movement {
  const by = now[along] - then[along];
  const U95 = Math.hypot((now.U95 ?? drawnByHand)[along], (then.U95 ?? drawnByHand)[along]);
  const knows = knowledge(by, now, then, along);
  if (knows === 'nothing' || knows === 'at-most') return { by, U95, knows, verdict: 'bound' };
  return { by, U95, knows, verdict: Math.abs(by) > U95 ? 'moved' : knows === 'exact' ? 'same' : 'bound' };
}

/**
 * A mark cut off at an edge goes on beyond it: its true centre lies farther that way than what is seen of it. So what
 * two readings tell of a movement depends on which of them is cut, and at which end.
 */
function knowledge(by: number, now: Mark, then: Mark, along: 'heel' | 'crown'): Movement['knows'] {
  const [pullNow, pullThen] = [pull(now, along), pull(then, along)];
  if (pullNow === undefined || pullThen === undefined) return 'nothing';
  if (pullNow === 0 && pullThen === 0) return 'exact';
  const pulls = new Set([pullNow, -pullThen].filter((one) => one !== 0));
  if (pulls.size > 1) return 'nothing';
  const [beyond] = pulls;
  return beyond === (Math.sign(by) || beyond) ? 'at-least' : 'at-most';
}

/** To which side the true centre lies beyond the seen one; undefined where both ends are cut. */
function pull(mark: Mark, along: 'heel' | 'crown'): -1 | 0 | 1 | undefined {
  if (!isBound(mark, along)) return 0;
  const [low, high]: readonly [Edge, Edge] = along === 'heel' ? ['toe', 'heel'] : ['root', 'crown'];
  const [cutLow, cutHigh] = [mark.edges[low] !== 'clear', mark.edges[high] !== 'clear'];
  if (cutLow && cutHigh) return undefined;
  return cutHigh ? 1 : -1;
}

/** Cells in each direction on which shapes are laid over each other. */
const fine = 120;

function overlapOf(now: Mark, then: Mark, faceOverHeight: number): number {
  const [inNow, inThen] = [shapeOf(now, faceOverHeight), shapeOf(then, faceOverHeight)];
  let [shared, either] = [0, 0];
  for (let i = 0; i < fine; i += 1) {
    for (let j = 0; j < fine; j += 1) {
      const [heel, crown] = [(i + 0.5) / fine - 0.5, (j + 0.5) / fine - 0.5];
      const [a, b] = [inNow(heel, crown), inThen(heel, crown)];
      if (a && b) shared += 1;
      if (a || b) either += 1;
    }
  }
  return either === 0 ? 0 : shared / either;
}

/** The oval with the mark's extents and slant; one that an edge cuts off is laid against that edge. */
function shapeOf(mark: Mark, faceOverHeight: number): (heel: number, crown: number) => boolean {
  const [x, y] = [middle(mark, 'heel'), middle(mark, 'crown')];
  const [a, b] = [Math.max(1e-6, mark.length / 2), Math.max(1e-6, mark.height / 2)];
  const steepest = (0.95 * b) / a;
  const rise = Math.tan((mark.slant_deg * Math.PI) / 180) * faceOverHeight;
  const shear = Math.min(steepest, Math.max(-steepest, rise));
  const upright = b * b - shear * shear * a * a;
  return (heel, crown) => {
    const along = heel - x;
    return (along / a) ** 2 + (crown - y - shear * along) ** 2 / upright <= 1;
  };
}

function middle(mark: Mark, along: 'heel' | 'crown'): number {
  const extent = along === 'heel' ? mark.length : mark.height;
  const side = pull(mark, along);
  if (side === 1 || side === -1) return side * (0.5 - extent / 2);
  return mark[along];
}

/** Differences in how two marks were made that change their size and their movement; own thresholds, no source. */
function madeDifferently(now: Mark, then: Mark): readonly string[] {
  const [a, b] = [now.made ?? {}, then.made ?? {}];
  const warnings: string[] = [];
  const apart = (one: number | undefined, other: number | undefined, factor: number) =>
    one !== undefined && other !== undefined && Math.max(one, other) > factor * Math.min(one, other);
  if (apart(a.film_um, b.film_um, 1.25))
    warnings.push(
      'The films were of different thickness: a thicker film makes a larger mark. Compare places, not sizes.',
    );
  if (apart(a.drag_Nm, b.drag_Nm, 1.25))
    warnings.push('The drag was different: more drag makes a larger mark, and moves it a little.');
  if (apart(a.turns, b.turns, 1.5))
    warnings.push('The gears were turned a different number of times: more turns smear a mark.');
  if (a.bearings !== undefined && b.bearings !== undefined && a.bearings !== b.bearings) {
    warnings.push('The marks were made on different bearings, which hold the gears in slightly different places.');
  }
  if ((now.made === undefined) !== (then.made === undefined))
    warnings.push('How one of the two marks was made is not known.');
  return warnings;
}

const assumed = (now: Mark, then: Mark): readonly string[] =>
  now.U95 !== undefined && then.U95 !== undefined
    ? []
    : ['A mark was drawn by hand: how well it is placed is assumed (0.06 along the face, 0.08 in height).'];

const bounds = (heel: Movement, crown: Movement): readonly string[] =>
  heel.knows === 'exact' && crown.knows === 'exact'
    ? []
    : ['A mark is cut off by an edge: its centre is a bound, and so is its movement.'];
