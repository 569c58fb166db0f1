import { type Length, mm } from '../basics/quantity.ts';
import { fail, ok, type Result } from '../basics/result.ts';
import { reachable, type Size } from './stacks.ts';

/** One size in the drawer, as measured, and how many of it there are. */
export interface DrawerSize {
  readonly thickness: Length;
  readonly count: number;
}

/** Shims in the order they go in: thick ones outside, thin ones between them, where they cannot be bent or torn. */
export interface Stack {
  readonly shims: readonly Length[];
  readonly total: Length;
  /** Total minus wanted. */
  readonly off: Length;
}

export type StackAnswer =
  | { readonly fits: true; readonly stack: Stack }
  | {
      readonly fits: false;
      /** The best the drawer can do. */
      readonly nearest: Stack;
      /** One shim to buy, and what of the drawer goes with it. */
      readonly buy: { readonly thickness: Length; readonly with: Stack };
    };

/** Sizes are counted in tenths of a micrometre, which holds 0.0005 in (12.7 µm) and 0.001 mm exactly. */
const finest = 1e-4;
/** No pack at a pinion or a case bearing is thicker; it bounds the search. */
const thickestPack = 12;

/**
 * The stack for a wanted thickness from what is in the drawer: exact over every combination, fewest shims first, then
 * nearest. Where none lies within the tolerance, the nearest one and the shim to buy.
 */
export function stackFor(
  drawer: readonly DrawerSize[],
  wanted: Length,
  tolerance: Length,
): Result<StackAnswer, 'wrong-drawer'> {
  const wrong = wrongDrawer(drawer, wanted, tolerance);
  if (wrong !== undefined) return wrong;
  const sizes = drawer.map(({ thickness, count }) => ({ units: inUnits(thickness), count }));
  const goal = inUnits(wanted);
  const slack = Math.max(0, Math.floor(tolerance / finest + 1e-6));
  const packs = reachable(sizes, goal + slack);
  const fitting = best(packs.totals, (units) => Math.abs(units - goal) <= slack, packs.fewest, goal);
  if (fitting !== undefined) return ok({ fits: true, stack: stackFrom(packs.stackOf(fitting), goal) });
  return ok(unfitted(sizes, goal));
}

/** The nearest pack, which may also be too thick, and what to buy. */
function unfitted(sizes: readonly Size[], goal: number): StackAnswer {
  // Nothing (total 0) is always reachable, so the nearest pack is never more than the goal itself above it.
  const packs = reachable(sizes, goal + Math.min(goal, Math.max(0, ...sizes.map(({ units }) => units))));
  const asStack = (units: number): Stack => stackFrom(packs.stackOf(units), goal);
  const nearest = packs.totals.reduce((a, b) => (Math.abs(b - goal) < Math.abs(a - goal) ? b : a));
  return { fits: false, nearest: asStack(nearest), buy: toBuy(packs, sizes, goal, asStack) };
}

type Fewest = (units: number) => number;

/** Fewest shims, then nearest to the goal. */
function best(
  totals: readonly number[],
  fits: (units: number) => boolean,
  fewest: Fewest,
  goal: number,
): number | undefined {
  const better = (a: number, b: number): number =>
    fewest(b) < fewest(a) || (fewest(b) === fewest(a) && Math.abs(b - goal) < Math.abs(a - goal)) ? b : a;
  const fitting = totals.filter((units) => units > 0 && fits(units));
  return fitting.length === 0 ? undefined : fitting.reduce(better);
}

/** The shim that would complete the pack with fewest others, as near as can be to sizes shims come in. */
function toBuy(
  { totals, fewest }: { readonly totals: readonly number[]; readonly fewest: Fewest },
  sizes: readonly Size[],
  goal: number,
  asStack: (units: number) => Stack,
): { readonly thickness: Length; readonly with: Stack } {
  const thinnest = Math.min(goal, ...sizes.map(({ units }) => units));
  const thickest = Math.max(thinnest, ...sizes.map(({ units }) => units));
  const usable = totals.filter((units) => goal - units >= thinnest && goal - units <= thickest);
  const base = usable.length === 0 ? 0 : usable.reduce((a, b) => (fewest(b) < fewest(a) ? b : a));
  return { thickness: mm((goal - base) * finest), with: asStack(base) };
}

const inUnits = (thickness: Length): number => Math.round(thickness / finest);

function stackFrom(units: readonly number[], goal: number): Stack {
  const total = units.reduce((sum, size) => sum + size, 0);
  return {
    shims: thinInside(units).map((size) => mm(size * finest)),
    total: mm(total * finest),
    off: mm((total - goal) * finest),
  };
}

/** Thickest first, next thickest last, and so on inwards. */
function thinInside(units: readonly number[]): number[] {
  const sorted = units.toSorted((a, b) => b - a);
  const front = sorted.filter((_, index) => index % 2 === 0);
  const back = sorted.filter((_, index) => index % 2 === 1).toReversed();
  return [...front, ...back];
}

/** How a pack that was measured squeezed flat compares with the one wanted. The sum of nominal sizes does not count. */
type PackVerdict = 'fits' | 'too thick' | 'too thin';

/** Judges the measured pack; one that misses is chosen anew, never ground: ground stock ends up out of parallel. */
export function judgePack(measured: Length, wanted: Length, tolerance: Length): PackVerdict {
  if (Math.abs(measured - wanted) <= tolerance + 1e-9) return 'fits';
  return measured > wanted ? 'too thick' : 'too thin';
}

function wrongDrawer(
  drawer: readonly DrawerSize[],
  wanted: Length,
  tolerance: Length,
): Result<never, 'wrong-drawer'> | undefined {
  if (!(wanted > 0 && wanted <= thickestPack)) return wrong('wanted', 'the wanted pack must be between 0 and 12 mm');
  if (!(tolerance >= 0)) return wrong('tolerance', 'the tolerance must not be negative');
  if (drawer.some(({ thickness }) => !(inUnits(thickness) > 0 && thickness <= thickestPack))) {
    return wrong('thickness', 'every shim must be between 0.0001 and 12 mm thick');
  }
  if (drawer.some(({ count }) => !Number.isInteger(count) || count < 0))
    return wrong('count', 'counts are whole numbers');
  return undefined;
}

const wrong = (field: string, why: string): Result<never, 'wrong-drawer'> =>
  fail({
    kind: 'wrong-drawer',
    field,
    sentence: `${field}: ${why}.`,
    remedy: 'Check the unit of the thickness and the count.',
  });
