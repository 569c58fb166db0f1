import { arrivingFrom } from '../arriving.ts';
import { shownFrom } from '../displaying.ts';
import type { World } from '../world.ts';
import { bumped } from './bumped.ts';
import { burr } from './burr.ts';
import { busyMachine } from './busyMachine.ts';
import { coarse } from './coarse.ts';
import { creeping } from './creeping.ts';
import { home } from './home.ts';
import { landsWithAngle } from './landsWithAngle.ts';
import { lifted } from './lifted.ts';
import { nothingTurned, onlyTheStand } from './nothingTurned.ts';
import { oddRides } from './odd.ts';
import { overTurn } from './overTurn.ts';
import { partTurn } from './partTurn.ts';
import { pressWhileLanding } from './pressWhileLanding.ts';
import { rough } from './rough.ts';
import { runsTrue } from './runsTrue.ts';
import { stationsCreeping, stationsHome, stationsLanding, stationsWandering } from './stations.ts';
import { sticky } from './sticky.ts';
import { humming, swaying } from './swaying.ts';
import { unmarked } from './unmarked.ts';
import { wandering } from './wandering.ts';
import { wildReadings } from './wildReadings.ts';

/** The row where the measuring's own beliefs hold comes first. */
export const runoutWorlds: readonly World[] = [
  home,
  overTurn,
  unmarked,
  coarse,
  runsTrue,
  burr,
  rough,
  wildReadings,
  sticky,
  pressWhileLanding,
  landsWithAngle,
  lifted,
  busyMachine,
  nothingTurned,
  onlyTheStand,
  partTurn,
  wandering,
  swaying,
  humming,
  creeping,
  bumped,
  stationsHome,
  stationsWandering,
  stationsLanding,
  stationsCreeping,
  ...oddRides,
  ...arrivingFrom(home),
  ...shownFrom(home),
];
