import { base } from '../../../hardware-sim/worlds/axles/population.ts';
import type { FirstOrderWorld } from './firstOrder.ts';

const world = (change: Partial<FirstOrderWorld['population']>, told: FirstOrderWorld['told'] = 'all') => ({
  population: { ...base, ...change },
  told,
});

/** Every world of axles, each a row of the table: what it believes otherwise than the base. */
export const worlds: Readonly<Record<string, FirstOrderWorld>> = {
  base: world({}),
  'far start': world({ position: 0.5 }),
  'backlash answers otherwise': world({ ringShare: [0.5, 1], pinionShare: 0.3 }),
  'cut to 10 %': world({ cutting: [0.1, 0.1] }),
  'cut to 15 %': world({ cutting: [0.15, 0.15] }),
  'film changes 0.5 to 2': world({ filmChange: 2 }),
  'marks read to 8 %': world({ reading: 0.08 }),
  'marks tell no film': world({ relief: { film: 0.008, follows: 1, spread: 0.1 } }),
  'relief on its own': world({ relief: { film: 0.01, follows: 0, spread: 0.1 } }),
  'cut-off marks by their middle': world({ cutOffMarks: 'middle' }),
  'all kinds of sets': world({ sets: 'all-kinds' }),
  'counts, diameter, cut': world({}, 'counts-diameter-cut'),
  'counts and diameter': world({}, 'counts-diameter'),
  'window 0.05 wide': world({ windowWidth: 0.05 }),
  'gears bind at the start': world({ start: 'binds' }),
};
