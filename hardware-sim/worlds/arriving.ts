import { type Random, seeded } from '../seeded.ts';
import { arrivals } from './moments.ts';
import type { Sample, World } from './world.ts';

/** How bytes come: what becomes of a stream between gauge and bench. Presses come when they are made. */
interface Way {
  readonly name: string;
  readonly belief: string;
  readonly honest: boolean;
  readonly change: (samples: readonly Sample[], random: Random) => readonly Sample[];
}

const isReading = (sample: Sample): boolean => 'value' in sample;

/** Readings with other times, presses among them where they fall. */
function arrivingAt(
  samples: readonly Sample[],
  late: (times: readonly number[]) => readonly number[],
): readonly Sample[] {
  const readings = samples.filter(isReading);
  const times = late(readings.map(({ t }) => t));
  const arrived = readings.map((reading, index): Sample => ({ ...reading, t: times[index] ?? reading.t }));
  return [...arrived, ...samples.filter((sample) => !isReading(sample))].toSorted((a, b) => a.t - b.t);
}

/** One silence of this length at a moment, and then all that waited. */
const waiting = (from_s: number, long_s: number) => (times: readonly number[]) =>
  times.map((t_s) => (t_s > from_s && t_s < from_s + long_s ? from_s + long_s : t_s));

const inBlocks: Way = {
  name: 'read in blocks',
  belief: 'bytes sent evenly are handed over every 16–250 ms',
  honest: true,
  change(samples, random) {
    const block_s = 0.016 * (0.25 / 0.016) ** random.next();
    return arrivingAt(samples, (times) => times.map((t_s) => Math.ceil(t_s / block_s) * block_s));
  },
};

const oneStall: Way = {
  name: 'one stall',
  belief: 'once, anywhere, nothing comes for 0.05–0.5 s, then all that waited',
  honest: true,
  change(samples, random) {
    const last_s = samples.at(-1)?.t ?? 0;
    return arrivingAt(samples, waiting(random.uniform(0, last_s), random.uniform(0.05, 0.5)));
  },
};

const stallAtPress: Way = {
  name: 'stall over a press',
  belief: 'nothing comes for 0.2–0.5 s around each press, then all that waited',
  honest: true,
  change(samples, random) {
    const presses = samples.filter((sample) => !isReading(sample));
    return presses.reduce<readonly Sample[]>((now, { t }) => {
      const long_s = random.uniform(0.2, 0.5);
      return arrivingAt(now, waiting(t - random.uniform(0, long_s), long_s));
    }, samples);
  },
};

const lostInStalls: Way = {
  name: 'lost in stalls',
  belief: 'silences of 50–500 ms after which only the first 2–12 readings of those that waited come',
  honest: true,
  change(samples, random) {
    const room = 2 + Math.floor(10 * random.next());
    const stalled = arrivingAt(samples, (times) => arrivals(times, { every_s: 2, from_s: 0.05, to_s: 0.5 }, random));
    let [t_s, many] = [-1, 0];
    return stalled.filter((sample) => {
      if (!isReading(sample)) return true;
      many = sample.t === t_s ? many + 1 : 1;
      t_s = sample.t;
      return many <= room;
    });
  },
};

const jittering: Way = {
  name: 'uneven pace',
  belief: 'each reading is late by anything up to twice the pace, in order',
  honest: true,
  change(samples, random) {
    return arrivingAt(samples, (times) => {
      const pace_s = ((times.at(-1) ?? 0) - (times[0] ?? 0)) / Math.max(1, times.length - 1);
      let last_s = 0;
      return times.map((t_s) => (last_s = Math.max(last_s, t_s + random.uniform(0, 2 * pace_s))));
    });
  },
};

const whenItLikes: Way = {
  name: 'no pace',
  belief: 'a gauge that looks when it likes: of its readings two in three come, at random',
  honest: true,
  change: (samples, random) => samples.filter((sample) => !isReading(sample) || random.next() < 2 / 3),
};

const onChange: Way = {
  name: 'sends on change',
  belief: 'a gauge that is silent while its display stands, but for one reading a second',
  honest: false,
  change(samples) {
    let [value, t_s] = [Number.NaN, -10];
    return samples.filter((sample) => {
      if (!('value' in sample)) return true;
      if (sample.value === value && sample.t - t_s < 1) return false;
      [value, t_s] = [sample.value, sample.t];
      return true;
    });
  },
};

const ways: readonly Way[] = [inBlocks, oneStall, stallAtPress, lostInStalls, jittering, whenItLikes, onChange];

/** What the scenes of a world become on their way to the bench. */
export const arrivingFrom = (home: World, names: readonly string[] = ways.map(({ name }) => name)): readonly World[] =>
  ways
    .filter(({ name }) => names.includes(name))
    .map(({ name, belief, honest, change }) => ({
      name,
      kind: home.kind,
      belief,
      honest,
      make(seed) {
        const { samples, ...rest } = home.make(seed);
        return { ...rest, samples: change(samples, seeded(1_000_003 + seed)) };
      },
    }));
