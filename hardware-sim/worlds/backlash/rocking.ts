import type { Random } from '../../seeded.ts';
import { shown } from '../display.ts';
import { evenMoments } from '../moments.ts';
import { type Noise, still } from '../noises.ts';
import type { Sample, Scene, Told } from '../world.ts';
import { pathThrough, type Knot } from './path.ts';

/** How a hand rocks a ring gear under a stem, tooth after tooth. Lengths in mm, times in seconds. */
export interface Rocking {
  readonly rate_Hz: number;
  readonly step_mm: number;
  readonly teeth: readonly Tooth[];
  /** From one stop to the other, and how long it is held there. */
  readonly stroke_s: number;
  readonly rest_s: number;
  /** Strokes and rests differ from each other by up to this share. */
  readonly uneven: number;
  /** Chance that a rest lasts some seconds: somebody looks up. */
  readonly pauses: number;
  /** Chance that the hand stands still for a moment on its way. */
  readonly hesitates: number;
  /** Chance that the hand lets go a little at a stop and presses again. */
  readonly touchesAgain: number;
  /** How far beyond (above 0) or short of a stop a rest comes to stand. Asked once for each rest. */
  readonly beyondStop: (side: 'low' | 'high') => number;
  readonly noise?: Noise;
  /** What stands between the tooth and the display. */
  readonly spindle?: (value_mm: number) => number;
  /** What the gauge sends in place of a reading now and then. */
  readonly sent?: (value_mm: number) => number;
  /** Whether a reading never comes. */
  readonly lost?: () => boolean;
  /** When each reading arrives. */
  readonly arrive?: (moments: readonly number[]) => readonly number[];
  readonly told?: Partial<Told>;
}

interface Tooth {
  /** What is true of it: the movement that this world calls its backlash. */
  readonly backlash_mm: number;
  readonly lowStop_mm: number;
  /** Where the gear lies when the stem comes down, 0 … 1 between its stops. */
  readonly liesAt: number;
  readonly lies_s: number;
  readonly rocks: number;
  readonly startsLow: boolean;
}

/** Any honest hand on one to three teeth; a rest holds at least five readings of a slow gauge. */
export function anyRocking(random: Random, given: Partial<Rocking> = {}): Rocking {
  const rate_Hz = given.rate_Hz ?? 3 * (50 / 3) ** random.next();
  const pace = 0.1 * 9 ** random.next();
  return {
    rate_Hz,
    step_mm: 0.001,
    teeth: Array.from({ length: 1 + Math.floor(random.uniform(0, 3)) }, () => anyTooth(random)),
    stroke_s: pace,
    rest_s: Math.max(pace * random.uniform(1.5, 3), 0.3, 6 / rate_Hz),
    uneven: random.uniform(0, 0.35),
    pauses: random.next() < 0.3 ? 0.1 : 0,
    hesitates: random.next() < 0.3 ? 0.15 : 0,
    touchesAgain: random.next() < 0.2 ? 0.1 : 0,
    beyondStop: () => 0,
    ...given,
  };
}

export const anyTooth = (random: Random, least_mm = 0.08, most_mm = 0.35): Tooth => ({
  backlash_mm: random.uniform(least_mm, most_mm),
  lowStop_mm: random.uniform(1, 4),
  liesAt: random.next() < 0.5 ? Math.round(random.next()) : random.next(),
  lies_s: random.uniform(0.4, 1.5),
  rocks: 5 + Math.floor(random.uniform(0, 4)),
  startsLow: random.next() < 0.5,
});

/** The readings of a whole session, rounded as the display rounds, and what is true of each tooth. */
export function rockedScene(rocking: Rocking, random: Random): Scene {
  const { noise = still, spindle = (value) => value, sent = (value) => value, arrive = (moments) => moments } = rocking;
  const knots = work(rocking, random);
  const place = pathThrough(knots);
  const moments = evenMoments(rocking.rate_Hz, knots.at(-1)?.t ?? 0, random);
  const times = arrive(moments);
  const sampled = moments.map((t_s, index): Sample => {
    const felt = spindle(place(t_s)) + noise(t_s);
    return { t: times[index] ?? t_s, value: shown(sent(shown(felt, rocking.step_mm)), rocking.step_mm), unit: 'mm' };
  });
  const samples = sampled.filter(() => rocking.lost?.() !== true);
  return {
    samples,
    truths: rocking.teeth.map(({ backlash_mm }) => ({ of: 'station', value: backlash_mm })),
    told: { resolution: rocking.step_mm, ...rocking.told },
  };
}

/** Where the stem hangs free between two teeth. */
const hangs_mm = 0;

/** Everything the stem goes through, tooth after tooth, lifted in between and in the end. */
function work(rocking: Rocking, random: Random): readonly Knot[] {
  const knots: Knot[] = [];
  const by = (shares: number) => 1 + random.uniform(-shares, shares);
  let [t, at] = [0, 0];
  const go = (to: number, seconds: number): void => void knots.push({ t: (t += seconds), at: (at = to) });
  for (const [index, tooth] of rocking.teeth.entries()) {
    const lies = tooth.lowStop_mm + tooth.liesAt * tooth.backlash_mm;
    if (index === 0) knots.push({ t, at: lies });
    else {
      go(hangs_mm, random.uniform(0.2, 0.6));
      go(hangs_mm, Math.max(random.uniform(0.6, 3), 3 / rocking.rate_Hz));
      go(lies, random.uniform(0.2, 0.8));
    }
    at = lies;
    go(lies, tooth.lies_s);
    rockTooth(rocking, tooth, { go, by, place: () => at }, random);
  }
  go(hangs_mm, 0.4);
  go(hangs_mm, 1);
  return knots;
}

interface Pen {
  readonly go: (to: number, seconds: number) => void;
  readonly by: (share: number) => number;
  readonly place: () => number;
}

function rockTooth(rocking: Rocking, tooth: Tooth, { go, by, place }: Pen, random: Random): void {
  const { stroke_s, rest_s, uneven } = rocking;
  for (let rest = 0; rest < 2 * tooth.rocks; rest += 1) {
    const isLow = tooth.startsLow === (rest % 2 === 0);
    const beyond = rocking.beyondStop(isLow ? 'low' : 'high');
    const stop = isLow ? tooth.lowStop_mm - beyond : tooth.lowStop_mm + tooth.backlash_mm + beyond;
    if (random.next() < rocking.hesitates) {
      const half = place() + (stop - place()) * random.uniform(0.3, 0.7);
      go(half, stroke_s / 2);
      go(half, 0.3 * rest_s * by(0.5));
    }
    go(stop, stroke_s * by(uneven));
    if (random.next() < rocking.touchesAgain) {
      go(stop, 0.2 * rest_s);
      go(stop + (isLow ? 1 : -1) * random.uniform(0.02, 0.25) * tooth.backlash_mm, 0.5 * stroke_s);
      go(stop, 0.5 * stroke_s);
    }
    go(stop, random.next() < rocking.pauses ? random.uniform(3, 8) : rest_s * by(uneven));
  }
}
