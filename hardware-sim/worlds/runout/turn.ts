import type { Random } from '../../seeded.ts';
import { shown } from '../display.ts';
import { evenMoments } from '../moments.ts';
import { type Noise, still } from '../noises.ts';
import type { Sample, Scene, Told } from '../world.ts';

/** A surface that runs out: cosines of the gear's angle, and perhaps a burr. */
interface Surface {
  readonly waves: readonly { readonly order: number; readonly amplitude_mm: number; readonly high_rad: number }[];
  readonly burr?: { readonly height_mm: number; readonly at_rad: number; readonly wide_rad: number };
}

/** How the gear is turned under a stem that is put down first. Times are seconds from the first reading. */
interface Ride {
  readonly surface: Surface;
  readonly rate_Hz: number;
  readonly step_mm: number;
  /** When the gear starts to move; presses do not wait for it. */
  readonly starts_s: number;
  readonly turns: number;
  readonly turn_s: number;
  /** Rest after the turn. */
  readonly stays_s: number;
  /** 0 even; else the share by which the hand's speed swings about its mean. */
  readonly uneven?: number;
  /** What the stem reads above the surface while it lands. */
  readonly landing?: (t_s: number) => number;
  readonly noise?: Noise;
  /** What stands between the surface and the display: play of the spindle. */
  readonly spindle?: (value: number) => number;
  /** Share of the whole way made at a share of the time; evenly where nothing is said. */
  readonly way?: (share: number) => number;
  readonly withAngle: boolean;
  readonly presses_s?: readonly number[];
}

/** Height of the surface where the gear has turned this far, mm. */
export function heightAt({ waves, burr }: Surface, angle_rad: number): number {
  const lobes = waves.reduce(
    (sum, { order, amplitude_mm, high_rad }) => sum + amplitude_mm * Math.cos(order * (angle_rad - high_rad)),
    0,
  );
  if (burr === undefined) return lobes;
  const off = Math.atan2(Math.sin(angle_rad - burr.at_rad), Math.cos(angle_rad - burr.at_rad));
  return lobes + burr.height_mm * Math.exp(-0.5 * (off / burr.wide_rad) ** 2);
}

/** Largest minus smallest height, mm, by looking at every twentieth of a degree. */
export function trueRunout(surface: Surface): number {
  let [low, high] = [Infinity, -Infinity];
  for (let step = 0; step < 7200; step += 1) {
    const height = heightAt(surface, (step * Math.PI) / 3600);
    low = Math.min(low, height);
    high = Math.max(high, height);
  }
  return high - low;
}

/** One to three lobes, the first the largest. */
export function anySurface(random: Random, largest_mm = 0.06): Surface {
  const first = random.uniform(0.004, largest_mm / 2);
  const shares = [1, random.uniform(0, 0.4), random.uniform(0, 0.15)];
  return {
    waves: shares.map((share, index) => ({
      order: index + 1,
      amplitude_mm: first * share,
      high_rad: random.uniform(0, 2 * Math.PI),
    })),
  };
}

/** Where the gear stands at a time. The hand's swing about its mean speed begins and ends at nothing. */
function angleAt({ starts_s, turns, turn_s, uneven = 0, way }: Ride, t_s: number): number {
  const share = Math.min(1, Math.max(0, (t_s - starts_s) / (turns * turn_s)));
  if (way !== undefined) return 2 * Math.PI * turns * way(share);
  const pulls = Math.max(1, Math.round(turns * 5));
  const swing = (uneven / (2 * Math.PI * pulls)) * (1 - Math.cos(2 * Math.PI * pulls * share));
  return 2 * Math.PI * turns * Math.min(1, share + swing);
}

/** The readings of a ride, rounded as the display rounds, with the presses among them. */
export function ridden(ride: Ride, random: Random): readonly Sample[] {
  const { surface, landing = still, noise = still, spindle = (value: number) => value } = ride;
  const from_rad = random.uniform(0, 2 * Math.PI);
  const zero_mm = random.uniform(-0.5, 0.5);
  const until_s = ride.starts_s + ride.turns * ride.turn_s + ride.stays_s;
  const readings: Sample[] = evenMoments(ride.rate_Hz, until_s, random).map((t) => {
    const angle_rad = from_rad + angleAt(ride, t);
    const felt = spindle(heightAt(surface, angle_rad)) + noise(t) + landing(t);
    return {
      t,
      value: shown(zero_mm + felt, ride.step_mm),
      unit: 'mm',
      ...(ride.withAngle ? { angle_deg: ((angle_rad * 180) / Math.PI) % 360 } : {}),
    };
  });
  const presses: Sample[] = (ride.presses_s ?? []).map((t) => ({ t, pedal: 'next' }));
  return [...readings, ...presses].toSorted((a, b) => a.t - b.t);
}

/** A ride with what is true of it; the gauge is told by its step unless more is said. */
export const rideScene = (ride: Ride, random: Random, told: Partial<Told> = {}): Scene => ({
  samples: ridden(ride, random),
  truths: [{ of: 'runout', value: trueRunout(ride.surface) }],
  told: { resolution: ride.step_mm, ...told },
});

/** Anything an honest turn may be: speed, rate, turns a little over one, with or without angle. */
export function anyRide(random: Random): Ride {
  const starts_s = random.uniform(0.8, 2.5);
  const turns = random.uniform(1.02, 1.3);
  const turn_s = random.uniform(4, 14);
  return {
    surface: anySurface(random),
    rate_Hz: 10 ** random.uniform(Math.log10(8), Math.log10(100)),
    step_mm: 0.001,
    starts_s,
    turns,
    turn_s,
    stays_s: random.uniform(0.5, 2),
    uneven: random.uniform(0, 0.4),
    withAngle: random.next() < 0.5,
  };
}

/** Presses before the turn starts and where a chalk mark comes round again, give or take a few degrees. */
export const pressedAtOneTurn = (ride: Ride, random: Random): readonly number[] => {
  const pressed_s = ride.starts_s - random.uniform(0.1, 0.5);
  const off_turns = random.uniform(-0.015, 0.015);
  return [pressed_s, timeAt(ride, Math.min(ride.turns, 1 + off_turns)) + random.uniform(0, 0.1)];
};

/** When the gear has turned this far: the hand's swing makes it a search. */
function timeAt(ride: Ride, turns: number): number {
  let [early, late] = [ride.starts_s, ride.starts_s + ride.turns * ride.turn_s];
  for (let step = 0; step < 40; step += 1) {
    const middle = (early + late) / 2;
    if (angleAt(ride, middle) < 2 * Math.PI * turns) early = middle;
    else late = middle;
  }
  return late;
}
