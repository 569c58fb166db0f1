import type { Random } from '../seeded.ts';

/** How a hand rocks a ring gear. Times in seconds, lengths in mm at the indicator's stem. */
export interface Hand {
  /** From one stop to the other. */
  readonly travel_s: number;
  /** How long the gear is held against a stop. */
  readonly dwell_s: number;
  /** Lengths of stroke and dwell differ from one to the next by up to this share. */
  readonly unevenness: number;
  /** First rebound from the stop, as a share of the backlash; 0 is a hand that lays the tooth on. */
  readonly bounce: number;
  readonly bounce_s: number;
  /** Chance that a stroke stops half-way for a moment. */
  readonly hesitates: number;
  readonly hesitation_s: number;
  /** Elastic give of gears and bearings under the hand at either stop: one hand is the stronger. */
  readonly press_mm: { readonly low: number; readonly high: number };
  /** Raising the stem off the tooth, turning the gear to the next, lowering it again. */
  readonly lift: { readonly up_s: number; readonly hangs_s: number; readonly down_s: number };
  /** How unlike one press is to the next, as a share of it. */
  readonly pressSpread: number;
}

export type Speed = 'slow' | 'usual' | 'fast';

type Pace = Pick<Hand, 'travel_s' | 'dwell_s' | 'bounce' | 'bounce_s' | 'hesitation_s' | 'lift'>;

// Assumed, not measured: a quick rock takes less than half a second there and back, a careful one over four.
const PACE: Readonly<Record<Speed, Pace>> = {
  slow: {
    travel_s: 0.8,
    dwell_s: 1.3,
    bounce: 0,
    bounce_s: 0.05,
    hesitation_s: 0.4,
    lift: { up_s: 0.6, hangs_s: 3, down_s: 0.9 },
  },
  usual: {
    travel_s: 0.25,
    dwell_s: 0.55,
    bounce: 0.08,
    bounce_s: 0.05,
    hesitation_s: 0.2,
    lift: { up_s: 0.3, hangs_s: 1.5, down_s: 0.5 },
  },
  fast: {
    travel_s: 0.07,
    dwell_s: 0.14,
    bounce: 0.15,
    bounce_s: 0.03,
    hesitation_s: 0.06,
    lift: { up_s: 0.15, hangs_s: 0.5, down_s: 0.2 },
  },
};

/** A practised hand at one of three paces: firm, nearly even, seldom hesitating. */
export function steadyHand(speed: Speed = 'usual'): Hand {
  return { ...PACE[speed], unevenness: 0.2, hesitates: 0.05, press_mm: { low: 0.0005, high: 0.001 }, pressSpread: 0.1 };
}

const stronger = (random: Random): Hand['press_mm'] => {
  const light = random.uniform(0, 0.001);
  const firm = light + random.uniform(0, 0.003);
  return random.next() < 0.5 ? { low: light, high: firm } : { low: firm, high: light };
};

/** Any hand between the slowest and the quickest, spread evenly over the ratio of paces. */
export function anyHand(random: Random): Hand {
  const pace = Math.exp(random.uniform(Math.log(0.07), Math.log(0.9)));
  const dwell_s = pace * random.uniform(1.4, 3);
  return {
    travel_s: pace,
    dwell_s,
    unevenness: random.uniform(0.05, 0.35),
    // A slow hand lays the tooth on; a quick one lets it spring back.
    bounce: random.uniform(0, 0.3) * Math.exp(-pace / 0.3),
    bounce_s: random.uniform(0.02, 0.06),
    hesitates: random.next() < 0.5 ? 0 : random.uniform(0, 0.25),
    hesitation_s: dwell_s * random.uniform(0.15, 0.6),
    press_mm: stronger(random),
    lift: { up_s: random.uniform(0.15, 0.6), hangs_s: random.uniform(0.4, 4), down_s: random.uniform(0.2, 1) },
    pressSpread: random.uniform(0, 0.2),
  };
}
