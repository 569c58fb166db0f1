import type { Random } from '../seeded.ts';
import { eased, type Stretch } from './motion.ts';

/** A surface turned past an indicator. Angles are the gear's own, as it has turned. */
export interface SurfaceTurn {
  /** Height of the surface towards the indicator when the gear has turned this far, mm. */
  readonly surfaceAt: (gearAngle_rad: number) => number;
  /** Where the stem stands on a surface of height 0. */
  readonly preload_mm: number;
  readonly start_rad: number;
  /** Speed while turning, mean; with stations, of the way from one to the next. */
  readonly speed_rad_s: number;
  /** Largest departure from that speed, as a share of it: below 1, for a hand does not turn back. */
  readonly unevenness: number;
  readonly rest_s: number;
}

type Way = (elapsed_s: number) => number;

/** An angle over time from a hand that pulls, changes its grip, and pulls again. */
function unevenWay(from_rad: number, speed_rad_s: number, unevenness: number, random: Random): Way {
  const grips_rad_s = random.uniform(3, 7);
  const phase = random.uniform(0, 2 * Math.PI);
  const swing = (t_s: number): number => Math.sin(grips_rad_s * t_s + phase) - Math.sin(phase);
  return (t_s) => from_rad + speed_rad_s * (t_s + (unevenness / grips_rad_s) * swing(t_s));
}

const along = (setup: SurfaceTurn, doing: Stretch['doing'], seconds: number, angleAt: Way): Stretch => ({
  doing,
  seconds,
  angleAt,
  at: (t_s) => setup.preload_mm + setup.surfaceAt(angleAt(t_s)),
});

/** Turns without a stop: a rest, `turns` turns at an uneven speed, a rest. */
export function* turning(setup: SurfaceTurn, turns: number, random: Random): Generator<Stretch> {
  const way = unevenWay(setup.start_rad, setup.speed_rad_s, setup.unevenness, random);
  const seconds = (2 * Math.PI * turns) / setup.speed_rad_s;
  yield along(setup, 'pausing', setup.rest_s, () => setup.start_rad);
  yield along(setup, 'turning', seconds, way);
  const ends_rad = way(seconds);
  yield along(setup, 'pausing', setup.rest_s, () => ends_rad);
}

/** Turns by equal steps with a pause at each of `stations` places, and returns to the first as a check. */
export function* turningByStations(setup: SurfaceTurn, stations: number, random: Random): Generator<Stretch> {
  const step_rad = (2 * Math.PI) / stations;
  for (let station = 0; station <= stations; station += 1) {
    const here_rad = setup.start_rad + step_rad * station;
    const pause_s = setup.rest_s * (1 + random.uniform(-0.3, 0.3));
    yield { ...along(setup, 'pausing', pause_s, () => here_rad), station: station % stations };
    if (station === stations) return;
    const seconds = (step_rad / setup.speed_rad_s) * (1 + random.uniform(-setup.unevenness, setup.unevenness));
    yield along(setup, 'turning', seconds, (t_s) => here_rad + step_rad * eased(Math.min(1, t_s / seconds)));
  }
}

/** A shaft turned through a torque gauge. */
export interface DragTurn {
  /** Torque to keep it turning at this pinion angle, N·m. */
  readonly dragAt: (pinionAngle_rad: number) => number;
  /** Torque to start it, divided by that. */
  readonly breakawayFactor: number;
  readonly start_rad: number;
  readonly turns: number;
  readonly speed_rad_s: number;
  /** Share by which the hand's own pull swings about what the shaft needs. */
  readonly unevenness: number;
  readonly rest_s: number;
}

const PULL_s = 0.3;
const YIELD_s = 0.15;
const RELEASE_s = 0.1;

/** Rests, pulls until the shaft breaks away, turns it steadily, lets go, rests. */
export function* turningShaft(setup: DragTurn, random: Random): Generator<Stretch> {
  const { dragAt, start_rad } = setup;
  const peak_Nm = dragAt(start_rad) * setup.breakawayFactor;
  const seconds = (2 * Math.PI * setup.turns) / setup.speed_rad_s;
  const way: Way = (t_s) => start_rad + setup.speed_rad_s * t_s;
  const tremor = random.uniform(4, 9);
  const held: Way = () => start_rad;
  // The hand's swing begins and ends at nothing, so that its mean over the turning is close to nothing too.
  const swing = (t_s: number): number =>
    1 + setup.unevenness * Math.sin(2 * Math.PI * Math.round(tremor * seconds) * (t_s / seconds));
  const pull = (t_s: number): number => dragAt(way(t_s)) * swing(t_s);
  // Friction falls from its standing to its sliding value within the first moments of turning.
  const excess = (t_s: number): number => (peak_Nm - dragAt(start_rad)) * Math.exp((-5 * t_s) / YIELD_s);
  yield { doing: 'idle', seconds: setup.rest_s, at: () => 0, angleAt: held };
  yield { doing: 'breaking-away', seconds: PULL_s, at: (t_s) => (peak_Nm * t_s) / PULL_s, angleAt: held };
  yield { doing: 'turning', seconds, at: (t_s) => pull(t_s) + excess(t_s), angleAt: way };
  const last_Nm = pull(seconds);
  yield {
    doing: 'letting-go',
    seconds: RELEASE_s,
    at: (t_s) => last_Nm * (1 - t_s / RELEASE_s),
    angleAt: () => way(seconds),
  };
  yield { doing: 'idle', seconds: setup.rest_s, at: () => 0, angleAt: () => way(seconds) };
}
