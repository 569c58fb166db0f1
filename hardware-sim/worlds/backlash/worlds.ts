import type { World } from '../world.ts';

/** The row where the measuring's own beliefs hold comes first. */
export const backlashWorlds: readonly World[] = [];
