import { mean } from '../../basics/statistics.ts';
import { type Evidence, restError } from './evidence.ts';
import type { Side } from './measured.ts';
import { product } from './neighbours.ts';
import { levelsOf, type Rest } from './rocks.ts';

/** In fewer rests anything is a step or a slope. */
const SHORTEST_ROW = 5;

/**
 * Both rests move together. Each rest less the mean of its side: a base or a pinion that moves leaves a step or a
 * slope in that row, common to both sides; a hand that presses unevenly leaves none. Refused when a step
 * explains most of the row and is too large to be chance or to be harmless, or when a slope does that no hand would wait for.
 */
export function drifts(evidence: Evidence): boolean {
  const { rests, settings } = evidence;
  const large = Math.max(DRIFT_OF_SWING * evidence.between.value, 2 * settings.resolution, 6 * restError(evidence));
  if (rockedElsewhere(evidence, large)) return true;
  const walks = Math.max(WALK_OF_SWING * evidence.between.value, 2 * settings.resolution, 6 * restError(evidence));
  return [rests, withBefore(evidence)].some((row) => {
    const best = row.length < SHORTEST_ROW ? undefined : movement(row);
    if (best === undefined || best.explained < MOSTLY) return false;
    return Math.abs(best.size) > (best.how === 'steadily' ? walks : large);
  });
}

/** Before the first rest there was a stroke just as long, between two other places: the same rock, before the move. */
function rockedElsewhere(evidence: Evidence, large: number): boolean {
  const { rests, earlier, hangs } = evidence;
  const swing = evidence.between.value;
  const middle = mean(levelsOf(rests, 'low')) + swing / 2;
  const alike = Math.max(SAME_STROKE * swing, 3 * restError(evidence));
  return earlier.some(({ level }, at) => {
    const next = earlier[at + 1];
    if (next === undefined || (hangs !== undefined && Math.abs(level - hangs) <= alike)) return false;
    const isSame = Math.abs(Math.abs(next.level - level) - swing) <= alike;
    return isSame && Math.abs((next.level + level) / 2 - middle) > large;
  });
}

const SAME_STROKE = 0.02;

/** With the turn before the first rest, as if it were one: a step that it shares with the first rest is a step. */
function withBefore({ rests, earlier }: Evidence): readonly Rest[] {
  const [first] = rests;
  const before = earlier.at(-1);
  if (first === undefined || before === undefined) return rests;
  return [{ ...before, side: first.side === 'low' ? 'high' : 'low', stretch: first.stretch }, ...rests];
}

const MOSTLY = 0.85;
const DRIFT_OF_SWING = 0.06;
/** Steadily, by less than this share of the backlash from rest to rest: neighbours take it out, and it is only told. */
const WALK_OF_SWING = 0.025;

interface Movement {
  readonly how: 'steadily' | 'at-once';
  /** Share of the row's squares that it explains. */
  readonly explained: number;
  /** From one rest to the next where it is steady, else of the one step; mm. */
  readonly size: number;
}

/** The step or the slope, whichever explains more, that the rests of both sides have in common. */
function movement(rests: readonly Rest[]): Movement | undefined {
  const slope = along('steadily', rests, (index) => index);
  const steps = rests.slice(2, -1).map((_, at) => along('at-once', rests, (index) => (index < at + 2 ? 0 : 1)));
  return [slope, ...steps].toSorted((one, other) => other.explained - one.explained)[0];
}

/** Least squares of the rests on one shape, each side with a mean of its own. */
function along(how: Movement['how'], rests: readonly Rest[], shape: (index: number) => number): Movement {
  const levels = aboutSides(rests, ({ level }) => level);
  const shapes = aboutSides(rests, (_, index) => shape(index));
  const cross = product(levels, shapes);
  const power = product(shapes, shapes);
  const whole = product(levels, levels);
  if (power === 0 || whole === 0) return { how, explained: 0, size: 0 };
  return { how, explained: (cross * cross) / power / whole, size: cross / power };
}

/** Something of each rest, less the mean of its side. */
function aboutSides(rests: readonly Rest[], of: (rest: Rest, index: number) => number): readonly number[] {
  const values = rests.map(of);
  const meanOf = (side: Side): number => mean(values.filter((_, index) => rests[index]?.side === side));
  const middles = { low: meanOf('low'), high: meanOf('high') };
  return rests.map((rest, index) => of(rest, index) - middles[rest.side]);
}

/** A drift that the neighbours took out, but large enough to be told: the base or the pinion wants looking at. */
export function driftsAlong({ between, settings }: Evidence): boolean {
  const chance = CHANCE * between.sd;
  return Math.abs(between.drift) > Math.max(TOLD_OF_SWING * between.value, 2 * settings.resolution, chance);
}

const TOLD_OF_SWING = 0.03;
/** The slope of eight rests, from end to end, is off by 1.2 standard deviations of one; three times that is no chance. */
const CHANCE = 4;
