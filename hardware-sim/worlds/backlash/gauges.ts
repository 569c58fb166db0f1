import type { Random } from '../../seeded.ts';
import { withPlay } from '../display.ts';
import { arrivals } from '../moments.ts';
import { white } from '../noises.ts';
import { backlashWorld } from './hands.ts';
import { anyTooth } from './rocking.ts';

const stepOfAny = (random: Random): number => [0.001, 0.002, 0.01][Math.floor(random.uniform(0, 3))] ?? 0.001;

export const playStated = backlashWorld(
  { name: 'hysteresis stated', belief: '1–2 digits of play, told with the gauge', honest: true },
  (random) => {
    const step_mm = stepOfAny(random);
    const width = step_mm * random.uniform(1, 2);
    return { step_mm, spindle: withPlay(width), told: { hysteresis: width } };
  },
);

export const playNotStated = backlashWorld(
  { name: 'hysteresis not stated', belief: '1–2 digits of play, nothing said of it', honest: true },
  (random) => {
    const step_mm = stepOfAny(random);
    return { step_mm, spindle: withPlay(step_mm * random.uniform(1, 2)) };
  },
);

/** Sticks until it is pulled this far, then jumps to where it should be. */
function sticking(most_mm: number): (value: number) => number {
  let stands = Number.NaN;
  return (value) => {
    if (!(Math.abs(value - stands) <= most_mm)) stands = value;
    return stands;
  };
}

export const stickSlip = backlashWorld(
  { name: 'sticking stem', belief: 'the stem sticks until it is pulled by 1–4 µm, then jumps after', honest: false },
  (random) => ({ spindle: sticking(random.uniform(0.001, 0.004)) }),
);

export const wildReadings = backlashWorld(
  { name: 'wild readings', belief: 'one reading in 50–200 is off by 0.1–3 mm', honest: true },
  (random) => {
    const chance = 1 / random.uniform(50, 200);
    return {
      sent: (value) =>
        random.next() < chance ? value + random.uniform(0.1, 3) * (random.next() < 0.5 ? -1 : 1) : value,
    };
  },
);

export const coarseGauge = backlashWorld(
  {
    name: 'small backlash, coarse gauge',
    belief: '0.03–0.06 mm of backlash on a gauge of 0.01 mm, noise up to half a step',
    honest: true,
  },
  (random) => ({
    step_mm: 0.01,
    teeth: Array.from({ length: 2 }, () => anyTooth(random, 0.03, 0.06)),
    noise: white(random.uniform(0, 0.005), random),
  }),
);

export const busyMachine = backlashWorld(
  { name: 'a busy machine', belief: 'bytes sent evenly arrive in heaps after silences of 50–500 ms', honest: true },
  (random) => {
    const every_s = random.uniform(0.5, 5);
    return { arrive: (moments) => arrivals(moments, { every_s, from_s: 0.05, to_s: 0.5 }, random) };
  },
);
