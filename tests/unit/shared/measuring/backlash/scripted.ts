import { isPress, type Pedal, type StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import { mm, seconds } from '../../../../../src/shared/basics/quantity.ts';
import type { BacklashSettings } from '../../../../../src/shared/measuring/backlash/capture.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';

/** A stream written by hand: where the stem stands, and for how long, so that a test says what it means. */
export interface Script {
  /** Stands still, or moves evenly by `creep_mm` while it stands. */
  rest(level_mm: number, lasts_s?: number, creep_mm?: number): Script;
  /** Goes to a place. */
  go(to_mm: number, lasts_s?: number): Script;
  /** Rocks there and back, so many times, resting at either end. */
  rocks(count: number, low_mm: number, high_mm: number, lasts_s?: number): Script;
  /** Off the tooth, to the free end of the travel at 0, and down again. */
  lift(down_to_mm: number): Script;
  /** No readings for a while. */
  silence(lasts_s: number): Script;
  press(pedal?: Pedal): Script;
  /** From here on every reading is `times` itself plus `plus_mm`. */
  scale(times: number, plus_mm?: number): Script;
  readonly items: readonly StreamItem[];
}

export interface Manner {
  readonly rate_Hz?: number;
  readonly resolution_mm?: number;
  readonly noise_mm?: number;
  readonly seed?: number;
  /** Nothing shows beyond these. */
  readonly travel?: readonly [number, number];
}

export function script(manner: Manner = {}): Script {
  const { rate_Hz = 20, resolution_mm = 0.001, noise_mm = 0.0005, seed = 1, travel = [-100, 100] } = manner;
  const random = seeded(seed);
  const items: StreamItem[] = [];
  let ticks = 0;
  let place_mm = 0;
  let times = 1;
  let plus_mm = 0;
  const show = (at_mm: number): void => {
    const within = Math.min(travel[1], Math.max(travel[0], at_mm));
    const value = within * times + plus_mm + random.normal(0, noise_mm);
    items.push({ t: seconds(ticks / rate_Hz), value: Math.round(value / resolution_mm) * resolution_mm });
    ticks += 1;
  };
  const during = (lasts_s: number, at: (share: number) => number): Script => {
    const many = Math.max(1, Math.round(lasts_s * rate_Hz));
    for (let tick = 0; tick < many; tick += 1) show(at((tick + 1) / many));
    place_mm = at(1);
    return written;
  };
  const written: Script = {
    items,
    rest: (level_mm, lasts_s = 0.6, creep_mm = 0) => during(lasts_s, (share) => level_mm + creep_mm * share),
    go: (to_mm, lasts_s = 0.2) => {
      const from_mm = place_mm;
      return during(lasts_s, (share) => from_mm + (to_mm - from_mm) * share * share * (3 - 2 * share));
    },
    rocks(count, low_mm, high_mm, lasts_s = 0.6) {
      for (let rock = 0; rock < count; rock += 1) {
        written.go(high_mm).rest(high_mm, lasts_s).go(low_mm).rest(low_mm, lasts_s);
      }
      return written;
    },
    lift: (down_to_mm) => written.go(0, 0.4).rest(0, 1.2).go(down_to_mm, 0.4).rest(down_to_mm, 0.4),
    silence(lasts_s) {
      ticks += Math.round(lasts_s * rate_Hz);
      return written;
    },
    press(pedal = 'next') {
      items.push({ t: seconds(ticks / rate_Hz), pedal });
      return written;
    },
    scale(by, plus = 0) {
      times = by;
      plus_mm = plus;
      return written;
    },
  };
  return written;
}

export const settings = (more: Partial<BacklashSettings> = {}): BacklashSettings => ({
  resolution: mm(0.001),
  nextBy: 'itself',
  ...more,
});

/** The same stream with every value changed. */
export const changed = (items: readonly StreamItem[], value: (value: number) => number): StreamItem[] =>
  items.map((item) => (isPress(item) ? item : { ...item, value: value(item.value) }));
