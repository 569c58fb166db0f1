import { type Noise, sumOf, white } from '../noises.ts';
import { backlashWorld } from './hands.ts';

/** Beliefs that nobody asked for: forms of trouble that the measuring was not made with in mind. */

export const settlingHands = backlashWorld(
  { name: 'hands that settle', belief: 'the spindle follows with a lag of 0.05–0.4 s, as in thick oil', honest: true },
  (random) => {
    const rate_Hz = 3 * (50 / 3) ** random.next();
    const kept = Math.exp(-1 / (rate_Hz * random.uniform(0.05, 0.4)));
    let lags = Number.NaN;
    return {
      rate_Hz,
      rest_s: Math.max(1.2, 8 / rate_Hz),
      spindle: (value) => {
        lags = Number.isNaN(lags) ? value : value + (lags - value) * kept;
        return lags;
      },
    };
  },
);

export const unequalLoads = backlashWorld(
  {
    name: 'unequal loads',
    belief: 'one side is pressed 2–8 µm farther than the other, and a little more each time',
    honest: true,
  },
  (random) => {
    const [low, high] = [random.uniform(0, 0.003), random.uniform(0.002, 0.008)];
    const mean = { low, high };
    return { beyondStop: (side) => mean[side] * random.uniform(0.9, 1.1) - mean[side] };
  },
);

/** Steps of chance that add up: a base that slips a little now and then. */
const slipping = (perRootSecond: number, normal: () => number): Noise => {
  let [place, before_s] = [0, 0];
  return (t_s) => {
    place += perRootSecond * Math.sqrt(Math.max(0, t_s - before_s)) * normal();
    before_s = t_s;
    return place;
  };
};

export const slippingBase = backlashWorld(
  {
    name: 'a base that slips',
    belief: 'the place walks at random, 0.5–2 µm in a second, four times as much in sixteen',
    honest: true,
  },
  (random) => ({
    noise: sumOf(
      slipping(random.uniform(0.0005, 0.002), () => random.normal(0, 1)),
      white(0.0003, random),
    ),
  }),
);

export const jerkySway = backlashWorld(
  {
    name: 'jerks',
    belief: 'something falls back by 3–10 µm every 2–7 s and creeps up again in between',
    honest: false,
  },
  (random) => {
    const [height, period_s, from_s] = [random.uniform(0.003, 0.01), random.uniform(2, 7), random.uniform(0, 7)];
    return { noise: sumOf((t_s) => height * (((t_s + from_s) / period_s) % 1), white(0.0003, random)) };
  },
);

export const repeatingGauge = backlashWorld(
  {
    name: 'a gauge that repeats itself',
    belief: 'it sends each of its readings three to six times, 20–50 a second; a rest holds six to ten of them',
    honest: true,
  },
  (random) => {
    const every = Math.round(random.uniform(3, 6));
    const rate_Hz = random.uniform(20, 50);
    let [sent, left] = [0, 0];
    return {
      rate_Hz,
      rest_s: (random.uniform(6, 10) * every) / rate_Hz,
      noise: white(random.uniform(0.0005, 0.0015), random),
      sent: (value) => {
        if (left === 0) [sent, left] = [value, every];
        left -= 1;
        return sent;
      },
    };
  },
);

export const lostReadings = backlashWorld(
  { name: 'lost readings', belief: 'one reading in 5–20 never comes', honest: true },
  (random) => {
    const chance = 1 / random.uniform(5, 20);
    return { lost: () => random.next() < chance };
  },
);
