import { creep, type Noise, sumOf, white } from '../noises.ts';
import { backlashWorld } from './hands.ts';
import { anyTooth } from './rocking.ts';

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

/** A bounce that dies away, begun when the stop is met. */
const bouncing = (share: number, period_s: number, dies_s: number): ((value: number, t_s: number) => number) => {
  let [before, beforeT_s, speed, off] = [Number.NaN, 0, 0, 0];
  return (value, t_s) => {
    if (Number.isNaN(before)) [before, beforeT_s] = [value, t_s];
    const lasted_s = Math.max(1e-6, t_s - beforeT_s);
    const moves = (value - before) / lasted_s;
    // The sudden end of a movement kicks the spindle on.
    off = off * Math.exp(-lasted_s / dies_s) + share * (speed - moves) * lasted_s;
    [before, beforeT_s, speed] = [value, t_s, moves];
    return value + off * Math.cos((2 * Math.PI * t_s) / period_s);
  };
};

const springyStem = backlashWorld(
  {
    name: 'springy stem',
    belief: 'whenever the movement changes the spindle swings on by a part of it, for 0.05–0.2 s',
    honest: true,
  },
  (random) => {
    const rate_Hz = random.uniform(10, 50);
    const bounce = bouncing(random.uniform(0.1, 0.4), random.uniform(0.05, 0.2), random.uniform(0.05, 0.2));
    let n = 0;
    return { rate_Hz, rest_s: random.uniform(0.8, 1.5), spindle: (value) => bounce(value, n++ / rate_Hz) };
  },
);

const patientHands = backlashWorld(
  { name: 'patient hands', belief: 'each rest lasts 6–15 s, a base that creeps by up to 0.2 µm/s', honest: true },
  (random) => ({
    rate_Hz: random.uniform(5, 40),
    rest_s: random.uniform(6, 15),
    noise: sumOf(creep(random.uniform(-0.0002, 0.0002)), white(0.0005, random)),
  }),
);

const lateLooks = backlashWorld(
  {
    name: 'rests on the way',
    belief: 'six strokes in ten stand still on their way, for a third of a rest',
    honest: true,
  },
  () => ({ hesitates: 0.6 }),
);

const inchGauge = backlashWorld(
  {
    name: 'steps of half a thousandth',
    belief: 'a gauge of 0.0127 mm steps on 0.08–0.35 mm, noise up to half a step',
    honest: true,
  },
  (random) => ({ step_mm: 0.0127, noise: white(random.uniform(0, 0.006), random) }),
);

const wideOpen = backlashWorld(
  { name: 'wide open', belief: '0.6–2 mm of backlash, fast strokes', honest: true },
  (random) => ({
    teeth: Array.from({ length: 2 }, () => anyTooth(random, 0.6, 2)),
    stroke_s: random.uniform(0.1, 0.4),
  }),
);

const twiceAtAStop = backlashWorld(
  {
    name: 'pressed again at every stop',
    belief: 'at six stops in ten the hand lets go by 2–25 % of the backlash and presses again',
    honest: true,
  },
  () => ({ touchesAgain: 0.6 }),
);

export const oddRocking = [springyStem, patientHands, lateLooks, inchGauge, wideOpen, twiceAtAStop];
