import { type Random, seeded } from '../seeded.ts';
import { shown } from './display.ts';
import type { Sample, Scene, World } from './world.ts';

/** What a display makes of what the gauge reads, reading by reading in their order. */
type Display = (value: number, t_s: number) => number;

/** A kind of display; `of` is asked once for each scene. */
interface Manner {
  readonly name: string;
  readonly belief: string;
  readonly honest: boolean;
  readonly of: (random: Random, scene: Scene) => Display;
}

const lastOf = ({ samples }: Scene): number => samples.at(-1)?.t ?? 0;

const lazy: Manner = {
  name: 'lazy display',
  belief: 'the display changes only once the reading has gone 1.5 steps from what it shows',
  honest: true,
  of(_, { told }) {
    let shows = Number.NaN;
    return (value) => (Math.abs(value - shows) < 1.5 * told.resolution ? shows : (shows = value));
  },
};

const calm: Manner = {
  name: 'calmed display',
  belief: 'the display shows the mean of the last 0.1–0.3 s',
  honest: true,
  of(random) {
    const memory_s = random.uniform(0.1, 0.3);
    const heard: { t_s: number; value: number }[] = [];
    return (value, t_s) => {
      heard.push({ t_s, value });
      while ((heard[0]?.t_s ?? t_s) < t_s - memory_s) heard.shift();
      return heard.reduce((sum, one) => sum + one.value, 0) / heard.length;
    };
  },
};

const coarserLater: Manner = {
  name: 'range changes',
  belief: 'from some moment on the display shows steps five times as large; told is the smaller one',
  honest: false,
  of(random, scene) {
    const from_s = random.uniform(0, lastOf(scene));
    const step = 5 * scene.told.resolution;
    return (value, t_s) => (t_s < from_s ? value : Math.round(value / step) * step);
  },
};

const coarserThanTold: Manner = {
  name: 'coarser than told',
  belief: 'the display shows steps twice or five times as large as the technician says',
  honest: false,
  of(random, { told }) {
    const step = (random.next() < 0.5 ? 2 : 5) * told.resolution;
    return (value) => Math.round(value / step) * step;
  },
};

const rounds = (value: number, step: number): number => shown(value, step);

const twicePressed = (samples: readonly Sample[], random: Random): readonly Sample[] =>
  samples
    .flatMap((sample): readonly Sample[] =>
      'pedal' in sample && random.next() < 0.5
        ? [sample, { ...sample, t: sample.t + random.uniform(0.03, 0.25) }]
        : [sample],
    )
    .toSorted((a, b) => a.t - b.t);

const manners: readonly Manner[] = [lazy, calm, coarserLater, coarserThanTold];

/** What a world's scenes look like on other displays, and with a pedal that is pressed twice. */
export const shownFrom = (home: World): readonly World[] => [
  ...manners.map(({ name, belief, honest, of }): World => ({
    name,
    kind: home.kind,
    belief,
    honest,
    make(seed) {
      const scene = home.make(seed);
      const display = of(seeded(2_000_003 + seed), scene);
      const samples = scene.samples.map((sample) =>
        'pedal' in sample
          ? sample
          : { ...sample, value: rounds(display(sample.value, sample.t), scene.told.resolution) },
      );
      return { ...scene, samples };
    },
  })),
  {
    name: 'pressed twice',
    kind: home.kind,
    belief: 'half of the presses come twice, 0.03–0.25 s apart',
    honest: true,
    make(seed) {
      const scene = home.make(seed);
      return { ...scene, samples: twicePressed(scene.samples, seeded(3_000_017 + seed)) };
    },
  },
];
