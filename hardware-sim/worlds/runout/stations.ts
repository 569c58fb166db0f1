import { type Random, seeded } from '../../seeded.ts';
import { shown } from '../display.ts';
import { evenMoments } from '../moments.ts';
import { creep, type Noise, sumOf, wander, white } from '../noises.ts';
import type { Sample, Scene, World } from '../world.ts';
import { anySurface, heightAt } from './turn.ts';
import { anyLanding } from './pressWhileLanding.ts';

interface ByStations {
  readonly random: Random;
  readonly count: number;
  readonly noise: Noise;
  readonly landing?: (t_s: number) => number;
  readonly firstPress_s?: number;
}

/** Stops at equal places with a press at each; the truth is the runout of those places. */
function stopped({ random, count, noise, landing = () => 0, firstPress_s }: ByStations): Scene {
  const surface = anySurface(random);
  const [rest_s, way_s, begin_s] = [random.uniform(0.8, 2), random.uniform(0.3, 1), random.uniform(0.2, 1) + 1];
  const each_s = rest_s + way_s;
  const placeAt = (t_s: number): number => {
    const [done, within] = [Math.floor((t_s - begin_s) / each_s), (t_s - begin_s) % each_s];
    if (t_s < begin_s) return 0;
    const share = Math.min(1, Math.max(0, (within - rest_s) / way_s));
    return Math.min(count, done + share * share * (3 - 2 * share));
  };
  const angleAt = (t_s: number): number => (placeAt(t_s) * 2 * Math.PI) / count;
  const until_s = begin_s + count * each_s + rest_s;
  const readings: Sample[] = evenMoments(random.uniform(8, 60), until_s, random).map((t) => ({
    t,
    value: shown(heightAt(surface, angleAt(t)) + noise(t) + landing(t), 0.001),
    unit: 'mm',
  }));
  const presses: Sample[] = Array.from({ length: count }, (_, index) => ({
    t:
      index === 0 && firstPress_s !== undefined
        ? firstPress_s
        : begin_s + index * each_s + random.uniform(0.5, 0.9) * rest_s,
    pedal: 'next',
  }));
  const heights = Array.from({ length: count }, (_, index) => heightAt(surface, (2 * Math.PI * index) / count));
  return {
    samples: [...readings, ...presses].toSorted((a, b) => a.t - b.t),
    truths: [{ of: 'runout', value: Math.max(...heights) - Math.min(...heights) }],
    told: { resolution: 0.001 },
  };
}

const stationsOf = (random: Random): number => [4, 6, 8, 12][Math.floor(random.uniform(0, 4))] ?? 8;

/** Stations with white noise: here the measuring's own beliefs hold. */
export const stationsHome: World = {
  name: 'stations, home',
  kind: 'runout',
  belief: '4–12 stations, a press at each while the hand rests, white noise of 0.5 µm',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    return stopped({ random, count: stationsOf(random), noise: white(0.0005, random) });
  },
};

/** The same with noise that remembers for as long as a rest. */
export const stationsWandering: World = {
  name: 'stations, wandering noise',
  kind: 'runout',
  belief: '4–12 stations, 1–3 µm that wanders with a memory of 0.05–1 s',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const noise = sumOf(
      wander(random.uniform(0.001, 0.003), 10 ** random.uniform(-1.3, 0), random),
      white(0.0002, random),
    );
    return stopped({ random, count: stationsOf(random), noise });
  },
};

/** The first station is pressed while the stem still comes down. */
export const stationsLanding: World = {
  name: 'stations, first press while the stem lands',
  kind: 'runout',
  belief: '4–12 stations, the first press 0.03–0.3 s before the stem stands',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const { lands, over_s } = anyLanding(random);
    const firstPress_s = Math.max(0, over_s - random.uniform(0.03, 0.3));
    return stopped({ random, count: stationsOf(random), noise: white(0.0003, random), landing: lands, firstPress_s });
  },
};

/** The base creeps, and nobody goes back to the first station to see it. */
export const stationsCreeping: World = {
  name: 'stations, creeping base',
  kind: 'runout',
  belief: '4–12 stations, 0.1–1 µm/s one way, white noise of 0.5 µm',
  honest: true,
  make(seed) {
    const random = seeded(seed);
    const creeps = creep(random.uniform(0.0001, 0.001) * (random.next() < 0.5 ? -1 : 1));
    return stopped({ random, count: stationsOf(random), noise: sumOf(creeps, white(0.0005, random)) });
  },
};
