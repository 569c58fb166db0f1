import type { IndicatorTraits } from '../gauges/indicator.ts';
import { MM_PER } from '../gauges/units.ts';
import type { Random } from '../seeded.ts';
import type { StationSetup } from './rocking.ts';
import type { Spoil } from './spoil.ts';

const away = (random: Random): 1 | -1 => (random.next() < 0.5 ? 1 : -1);

type Draw = (plain_mm: number, setup: StationSetup, gauge: IndicatorTraits, random: Random) => Spoil;

const DRAWS: Readonly<Record<Spoil['kind'], Draw>> = {
  'base-moved': (plain_mm, _setup, _gauge, random) => ({
    kind: 'base-moved',
    by_mm: away(random) * plain_mm * random.uniform(1, 2),
    atRock: random.next() < 0.5 ? 1 : 2,
  }),
  'pinion-moved': (plain_mm, _setup, _gauge, random) => ({
    kind: 'pinion-moved',
    perRock_mm: away(random) * plain_mm * random.uniform(0.4, 1),
  }),
  'not-held': (plain_mm, setup, _gauge, random) => ({
    kind: 'not-held',
    creep_mm_per_s: (plain_mm / Math.max(setup.leastRest_s, 0.5)) * random.uniform(0.5, 1),
  }),
  'one-sided': (_plain_mm, _setup, _gauge, random) => ({
    kind: 'one-sided',
    short: random.next() < 0.5 ? 'low' : 'high',
  }),
  'not-repeating': (plain_mm) => ({ kind: 'not-repeating', spread_mm: plain_mm }),
  'end-of-travel': (_plain_mm, _setup, gauge, random) =>
    random.next() < 0.5
      ? { kind: 'end-of-travel', side: 'low', end_mm: 0 }
      : { kind: 'end-of-travel', side: 'high', end_mm: gauge.travel_mm },
};

/**
 * A spoil of this kind, large enough that nobody should take a number from it: at least a fifth of the backlash,
 * eight noises or four steps of the display.
 */
export function drawnSpoil(kind: Spoil['kind'], setup: StationSetup, gauge: IndicatorTraits, random: Random): Spoil {
  const step_mm = gauge.resolution * MM_PER[gauge.unit];
  return DRAWS[kind](Math.max(0.2 * setup.backlash_mm, 8 * gauge.noise_mm, 4 * step_mm), setup, gauge, random);
}

/** A preload so small, or so large, that the gear's movement runs over the end of the stem's travel. */
export function atTheEnd(setup: StationSetup, spoil: Spoil, gauge: IndicatorTraits, random: Random): StationSetup {
  if (spoil.kind !== 'end-of-travel') return setup;
  const lost_mm = setup.backlash_mm * random.uniform(0.2, 0.6);
  return { ...setup, lowStop_mm: spoil.side === 'low' ? -lost_mm : gauge.travel_mm - setup.backlash_mm + lost_mm };
}
