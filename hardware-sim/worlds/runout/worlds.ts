import type { World } from '../world.ts';
import { creeping } from './creeping.ts';
import { home } from './home.ts';
import { nothingTurned } from './nothingTurned.ts';
import { partTurn } from './partTurn.ts';
import { pressWhileLanding } from './pressWhileLanding.ts';
import { wandering } from './wandering.ts';

/** The row where the measuring's own beliefs hold comes first. */
export const runoutWorlds: readonly World[] = [home, pressWhileLanding, nothingTurned, wandering, creeping, partTurn];
