import type { TrialSeen } from '../../../src/shared/axle/plan/input.ts';
import type { Step, Stood, Subject, Way } from './subject.ts';

/** One change that was made, and what came of it. */
export interface Change {
  readonly right: boolean;
  readonly chance: number | undefined;
  /** How far the worst station lies outside the backlash window (mm): 0 inside. */
  readonly outside: number;
  /** Whether it only gives gears that bind room, so that no backlash was promised. */
  readonly givesRoom: boolean;
  readonly pinionMoved: boolean;
  readonly ringMoved: boolean;
  /** Whether the truth lies within the U95 told; undefined where nothing was told. */
  readonly covered: { readonly crown?: boolean; readonly heel?: boolean; readonly backlash?: boolean };
}

/** One axle set up by one way of working, which stops on what it reads. */
export interface Followed {
  /** Whether it was right as found, and with at most one, two and three changes. */
  readonly rightAfter: readonly boolean[];
  readonly changes: readonly Change[];
  readonly suspectAt: number | undefined;
  /** The first thing it asked for in place of a shim; nobody erred, so that it was asked for nothing. */
  readonly alarm: Step['alarm'];
  /** Left standing by its own decision, right or wrong; the chance it told. */
  readonly left: { readonly right: boolean; readonly chance: number | undefined; readonly outside: number } | undefined;
}

const changesAtMost = 3;

export function follow(subject: Subject, way: Way): Followed {
  const trials: TrialSeen[] = [];
  const changes: Change[] = [];
  let place: Stood = { pinionOut: 0, ringAway: 0 };
  const rightAfter = [subject.rightAt(place)];
  const rest = (): readonly boolean[] => {
    const last = rightAfter.at(-1) ?? false;
    return Array.from({ length: changesAtMost + 1 }, (_, n) => rightAfter[n] ?? last);
  };
  let alarm: Step['alarm'];
  for (let trial = 0; trial < changesAtMost; trial += 1) {
    trials.push(subject.tryAt(place, trial));
    const asked = way(subject, trials);
    alarm ??= asked.alarm;
    const step = asked.alarm === undefined ? asked : answered({ subject, way, trials, place }, asked.alarm);
    const ended = { rightAfter: rest(), changes, suspectAt: undefined, alarm, left: undefined };
    if (step.suspect) return { ...ended, suspectAt: trial };
    if (step.alarm !== undefined) return ended;
    const right = subject.rightAt(place);
    if (step.stay) return { ...ended, left: { right, chance: step.chance, outside: outsideAt(subject, place) } };
    changes.push(changeTo(subject, place, step, (trials.at(-1)?.backlash.min_mm ?? 1) <= 0));
    place = step.place;
    rightAfter.push(subject.rightAt(place));
  }
  return { rightAfter: rest(), changes, suspectAt: undefined, alarm, left: undefined };
}

interface Asked {
  readonly subject: Subject;
  readonly way: Way;
  readonly trials: TrialSeen[];
  readonly place: Stood;
}

/** Films that paint a trial anew count from here on. */
const paintedAnew = 4;

/**
 * What is done at the stand where a way asks for something in place of a shim: who is asked to look finds nothing wrong
 * and says so, who is asked to paint again does. It is asked once; an axle asked again ends there.
 */
function answered({ subject, way, trials, place }: Asked, alarm: 'check' | 'repaint'): Step {
  const last = trials.pop();
  if (last !== undefined) {
    const anew = alarm === 'repaint' ? subject.tryAt(place, trials.length + paintedAnew) : { ...last, looked: true };
    trials.push(anew);
  }
  return way(subject, trials);
}

function outsideAt(subject: Subject, place: Stood): number {
  const { backlash, variation } = subject.truthAt(place);
  const [low, high] = subject.ask([]).limits.backlash_mm;
  return Math.max(0, low - (backlash - variation / 2), backlash + variation / 2 - high);
}

function changeTo(subject: Subject, from: Stood, { place, chance, expected }: Step, bound: boolean): Change {
  const truth = subject.truthAt(place);
  const within = (value: number, told: number, U95: number): boolean => Math.abs(value - told) <= U95;
  return {
    right: subject.rightAt(place),
    chance,
    outside: outsideAt(subject, place),
    givesRoom: bound,
    pinionMoved: Math.abs(place.pinionOut - from.pinionOut) > 1e-6,
    ringMoved: Math.abs(place.ringAway - from.ringAway) > 1e-6,
    covered:
      (expected && {
        crown: within(truth.crown, expected.crown, expected.U95.crown),
        backlash: within(truth.backlash, expected.backlash, expected.U95.backlash),
        ...(expected.heel === undefined || expected.U95.heel === undefined
          ? {}
          : { heel: within(truth.heel, expected.heel, expected.U95.heel) }),
      }) ||
      {},
  };
}
