import { arrivingFrom } from '../arriving.ts';
import { shownFrom } from '../displaying.ts';
import type { World } from '../world.ts';
import { jerky, seatingLast, seatingMean, stickSlip, tremor, wandering } from './friction.ts';
import { busy, coarse, gaps, slow, wanderingGauge, wild } from './gauges.ts';
import { home } from './home.ts';
import { nothingTurned } from './nothingTurned.ts';
import { oddPulls } from './odd.ts';
import { aboutOneTurn, partWithAngle, partWithoutAngle } from './partTurn.ts';
import { pullAfterPull, shortRest } from './shortRest.ts';
import { leaningHand, zeroDrifts, zeroFarOff, zeroOff } from './zeroOff.ts';

/** The row where the measuring's own beliefs hold comes first. */
export const torqueWorlds: readonly World[] = [
  home,
  zeroOff,
  zeroFarOff,
  zeroDrifts,
  leaningHand,
  partWithAngle,
  partWithoutAngle,
  aboutOneTurn,
  shortRest,
  pullAfterPull,
  seatingMean,
  seatingLast,
  stickSlip,
  tremor,
  wandering,
  jerky,
  coarse,
  slow,
  wanderingGauge,
  busy,
  gaps,
  wild,
  nothingTurned,
  ...oddPulls,
  ...arrivingFrom(home),
  ...shownFrom(home),
];
