/** A size in whole units, and how many shims of it there are. */
export interface Size {
  readonly units: number;
  readonly count: number;
}

/** Every total that some shims of the drawer add up to, with the fewest shims it takes. */
interface Packs {
  /** Totals in units, 0 (nothing) first, rising. */
  readonly totals: readonly number[];
  readonly fewest: (units: number) => number;
  /** The shims of the fewest-shim pack that adds up to `units`, which must be one of the totals. */
  readonly stackOf: (units: number) => number[];
}

/** Shims of one size that are taken together or not at all: 1, 2, 4 … of them make up any count. */
interface Bundle {
  readonly units: number;
  readonly shims: number;
  readonly steps: number;
}

/** The search so far: for each total the fewest shims and the last way there. Ways are linked lists that never change. */
interface Search {
  readonly fewest: Uint16Array;
  readonly way: Int32Array;
  readonly bundleOf: number[];
  readonly before: number[];
}

const unreachable = 0xffff;

/** All packs up to `limit` units: the bounded knapsack, exact, one pass over the totals for each bundle. */
export function reachable(sizes: readonly Size[], limit: number): Packs {
  const step = sizes.reduce((divisor, { units }) => commonDivisor(divisor, units), 0) || 1;
  const width = Math.floor(limit / step) + 1;
  // Thick ones first: packs of few shims are then found early and seldom bettered.
  const bundles = sizes.toSorted((a, b) => b.units - a.units).flatMap((size) => bundlesOf(size, step, width));
  const search = {
    fewest: new Uint16Array(width).fill(unreachable),
    way: new Int32Array(width),
    bundleOf: [-1],
    before: [-1],
  };
  search.fewest[0] = 0;
  let top = 0;
  for (const [index, bundle] of bundles.entries()) {
    top = Math.min(width - 1, top + bundle.steps);
    add(search, bundle, index, top);
  }
  const totals = Array.from(search.fewest.keys()).filter((total) => search.fewest[total] !== unreachable);
  return {
    totals: totals.map((total) => total * step),
    fewest: (units) => search.fewest[units / step] ?? unreachable,
    stackOf: (units) => followed(search, bundles, units / step),
  };
}

/** From the thickest total there can be yet down to thin ones, so that a bundle is taken once. */
function add(search: Search, { steps, shims }: Bundle, index: number, top: number): void {
  const { fewest, way, bundleOf, before } = search;
  for (let total = top; total >= steps; total -= 1) {
    const withBundle = (fewest[total - steps] ?? unreachable) + shims;
    if (withBundle < (fewest[total] ?? unreachable)) {
      fewest[total] = withBundle;
      bundleOf.push(index);
      before.push(way[total - steps] ?? 0);
      way[total] = bundleOf.length - 1;
    }
  }
}

/** The way back from a total to nothing. */
function followed(search: Search, bundles: readonly Bundle[], total: number): number[] {
  const shims: number[] = [];
  for (let way = search.way[total] ?? 0; way > 0; way = search.before[way] ?? 0) {
    const bundle = bundles[search.bundleOf[way] ?? -1];
    if (bundle) shims.push(...Array.from({ length: bundle.shims }, () => bundle.units));
  }
  return shims;
}

function bundlesOf(size: Size, step: number, width: number): Bundle[] {
  const steps = size.units / step;
  // More than fill the limit are never needed.
  let left = Math.min(size.count, Math.floor((width - 1) / steps));
  const bundles: Bundle[] = [];
  for (let shims = 1; left > 0; shims *= 2) {
    const now = Math.min(shims, left);
    bundles.push({ units: size.units, shims: now, steps: steps * now });
    left -= now;
  }
  return bundles;
}

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));
