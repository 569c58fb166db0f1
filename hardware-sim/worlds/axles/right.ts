import { backlashAt, type Shown, shownBy, type WorldAxle } from './axle.ts';
import type { Painted } from './paint.ts';

/** Below this share of the film left, an edge shows a hard line. */
const hardBelow = 0.5;

/** The film a place is judged in: the axle's own, not a trial's. */
const judgedIn = -1;

/** Drive mark in its place and every station in the window. */
export function driveRight(axle: WorldAxle, { drive, backlash }: Shown): boolean {
  const [low, high] = axle.kind.window;
  const half = axle.kind.variation / 2;
  return (
    Math.abs(drive.crown) <= 0.12 &&
    drive.heel >= -0.22 &&
    drive.heel <= 0.12 &&
    backlash - half >= low &&
    backlash + half <= high
  );
}

export const hardEdge = ({ edges }: Painted): boolean => Math.min(...edges) < hardBelow;

export const standsAt = (axle: WorldAxle, pinionOut: number, ringAway: number): Shown =>
  shownBy(axle, pinionOut, ringAway, judgedIn);

/** Right, with coast without a hard edge that another right position would avoid. */
export function rightAt(axle: WorldAxle, pinionOut: number, ringAway: number): boolean {
  const here = standsAt(axle, pinionOut, ringAway);
  if (!driveRight(axle, here)) return false;
  return !hardEdge(here.coast) || !somewhere(axle, (shown) => !hardEdge(shown.coast));
}

export const canBeRight = (axle: WorldAxle): boolean => somewhere(axle, () => true);

/** Walks the pinion through 2.4 mm about where it was cut to stand, the ring gear at five backlashes each time. */
function somewhere(axle: WorldAxle, also: (shown: Shown) => boolean): boolean {
  const [low, high] = axle.kind.window;
  const half = axle.kind.variation / 2;
  const stretch = high - low - 2 * half;
  for (let n = 0; n < 61; n += 1) {
    const offset = 0.04 * (n % 2 === 0 ? n / 2 : -(n + 1) / 2);
    const pinionOut = offset - axle.start.out;
    let ringAway = -axle.start.away - (axle.perOut / axle.perAway) * offset;
    for (const share of [0.5, 0.05, 0.95, 0.25, 0.75]) {
      const wanted = low + half + share * stretch;
      for (let round = 0; round < 3; round += 1)
        ringAway += (wanted - backlashAt(axle, pinionOut, ringAway)) / axle.perAway;
      const shown = standsAt(axle, pinionOut, ringAway);
      if (driveRight(axle, shown) && also(shown)) return true;
    }
  }
  return false;
}
