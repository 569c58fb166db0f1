import { arrivingFrom } from '../arriving.ts';
import { shownFrom } from '../displaying.ts';
import type { World } from '../world.ts';
import { busyMachine, coarseGauge, playNotStated, playStated, stickSlip, wildReadings } from './gauges.ts';
import { fallsShort, home, leftShort, manners, oneFirmHand, scatteringHands } from './hands.ts';
import {
  jerkySway,
  lostReadings,
  oddRocking,
  repeatingGauge,
  settlingHands,
  slippingBase,
  unequalLoads,
} from './odd.ts';
import { fastDrift, humming, knocked, slowDrift, swaying, thermalRamp, walkingPinion, wandering } from './moving.ts';

/** The row where the measuring's own beliefs hold comes first. */
export const backlashWorlds: readonly World[] = [
  home,
  manners,
  slowDrift,
  fastDrift,
  thermalRamp,
  swaying,
  wandering,
  humming,
  knocked,
  walkingPinion,
  scatteringHands,
  oneFirmHand,
  fallsShort,
  leftShort,
  playStated,
  playNotStated,
  stickSlip,
  wildReadings,
  coarseGauge,
  busyMachine,
  settlingHands,
  unequalLoads,
  slippingBase,
  jerkySway,
  repeatingGauge,
  lostReadings,
  ...oddRocking,
  ...arrivingFrom(home),
  ...shownFrom(home),
];
