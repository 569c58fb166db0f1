import { type Random, seeded } from '../../seeded.ts';
import type { Sample, Scene, World } from '../world.ts';
import { anyPull, ends_s, peakOf, type Pull, pulled, pullScene } from './pull.ts';

const world = (
  named: Pick<World, 'name' | 'belief' | 'honest'>,
  change: (pull: Pull, random: Random) => Partial<Pull>,
): World => ({
  ...named,
  kind: 'torque',
  make(seed) {
    const random = seeded(seed);
    const pull = anyPull(random);
    return pullScene({ ...pull, ...change(pull, random) }, random);
  },
});

/** A wrench that is taken back after each stroke: the shaft is known to go round, nobody knows when. */
const inStrokes: World = {
  name: 'pulled in strokes',
  kind: 'torque',
  belief:
    'a bar of 0.15–0.4 turns a stroke, taken back for 0.5–1.2 s, until the shaft has gone 1–2 turns; the hardest start counts',
  honest: true,
  make(seed): Scene {
    const random = seeded(seed);
    const pull = { ...anyPull(random), withAngle: false, marked: false };
    const stroke = random.uniform(0.15, 0.4);
    const samples: Sample[] = [];
    const starts: number[] = [];
    for (let turns = 0, from_s = 0; turns < random.uniform(1, 2); turns += stroke) {
      const one = {
        ...pull,
        starting: random.uniform(1.1, 1.6),
        from_turns: turns,
        turns: stroke,
        turn_s: random.uniform(3, 6),
        rest_s: random.uniform(0.2, 0.6),
        restAfter_s: random.uniform(0.3, 0.6),
      };
      samples.push(...pulled(one, random, from_s));
      starts.push(peakOf(one));
      from_s += ends_s(one);
    }
    return {
      samples,
      truths: [
        { of: 'running', value: pull.level },
        { of: 'breakaway', value: Math.max(...starts) },
      ],
      told: { resolution: pull.step },
    };
  },
};

const letsGoSlowly = world(
  { name: 'lets go slowly', belief: 'the hand takes 0.5–2 s to let go', honest: true },
  (_, random) => ({ release_s: random.uniform(0.5, 2) }),
);

const meshRipple = world(
  {
    name: 'ripple of the teeth',
    belief: 'nine to fifteen waves a turn of 2–8 %, beside those of the turn',
    honest: true,
  },
  ({ lobes }, random) => ({
    lobes: [
      ...lobes,
      { order: 9 + Math.floor(7 * random.next()), share: random.uniform(0.02, 0.08), at_rad: random.uniform(0, 6) },
    ],
  }),
);

const ringsTurn = world(
  {
    name: 'ripple of the ring gear',
    belief:
      'beside the waves of the pinion one of 2–6 % with the ring gear, which goes 2.6–5.4 times slower; 6–12 turns of the pinion',
    honest: true,
  },
  ({ lobes }, random) => ({
    turns: random.uniform(6, 12),
    turn_s: random.uniform(1.2, 2.5),
    lobes: [
      ...lobes,
      { order: 1 / random.uniform(2.6, 5.4), share: random.uniform(0.02, 0.06), at_rad: random.uniform(0, 6) },
    ],
  }),
);

const notchedOnce = world(
  { name: 'one notch', belief: 'a hard place of 10–40 % over a tenth of the turn', honest: true },
  ({ lobes }, random) => {
    const high = random.uniform(0.1, 0.4);
    const at_rad = random.uniform(0, 6);
    // The first eight waves of a bell of that width; its mean belongs to the level.
    const notch = Array.from({ length: 8 }, (_, index) => ({
      order: index + 1,
      share: 2 * high * 0.1 * Math.exp(-((0.25 * (index + 1)) ** 2)),
      at_rad,
    }));
    return { lobes: [...lobes, ...notch] };
  },
);

/** The gauge ends at its range: of a start that goes beyond it shows the end. */
const rangeEnds: World = {
  name: 'range ends',
  kind: 'torque',
  belief: 'the gauge shows no more than 1.02–1.3 times the running torque, where the start goes beyond',
  honest: false,
  make(seed) {
    const random = seeded(seed);
    const pull = { ...anyPull(random), lobes: [], starting: random.uniform(1.3, 1.8) };
    const { samples, ...rest } = pullScene(pull, random);
    const end = Math.round((pull.level * random.uniform(1.05, 1.25)) / pull.step) * pull.step;
    const shownOf = (value: number): number => Number(Math.max(-end, Math.min(end, value)).toFixed(7));
    return {
      ...rest,
      samples: samples.map((sample) => ('pedal' in sample ? sample : { ...sample, value: shownOf(sample.value) })),
    };
  },
};

/** The mark comes round twice in what the technician takes for a turn, or every other time only. */
const marksHalf = world(
  {
    name: 'pressed late or early',
    belief: 'turns marked by the pedal, each up to a sixth of a turn early or late',
    honest: true,
  },
  () => ({ withAngle: false, marked: true }),
);

const pressedOff: World = {
  ...marksHalf,
  make(seed) {
    const { samples, ...rest } = marksHalf.make(seed);
    const random = seeded(4_000_037 + seed);
    const presses = samples.filter((sample) => 'pedal' in sample);
    const apart = ((presses.at(-1)?.t ?? 0) - (presses[0]?.t ?? 0)) / Math.max(1, presses.length - 1);
    const off = (sample: Sample): Sample =>
      'pedal' in sample ? { ...sample, t: sample.t + (apart * random.uniform(-1, 1)) / 6 } : sample;
    return { ...rest, samples: samples.map(off).toSorted((a, b) => a.t - b.t) };
  },
};

export const oddPulls: readonly World[] = [
  inStrokes,
  letsGoSlowly,
  meshRipple,
  ringsTurn,
  notchedOnce,
  rangeEnds,
  pressedOff,
];
