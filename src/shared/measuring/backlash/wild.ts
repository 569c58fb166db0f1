import { isOutside, type Corridor } from './corridor.ts';

/**
 * Keeps single wild readings from what follows. A cable, a splash of oil or a lost digit makes one reading that has nothing
 * to do with its neighbours; a stem that is lifted makes many. So a reading that leaps away is held back until the next one
 * or two have come: if they are back where the stream was, the leap never happened.
 *
 * On a tooth only readings outside the corridor are held back: inside it a leap may be a stroke. Off the tooth it is any
 * leap that noise does not make.
 */
export interface Wild {
  /** Readings held back, and the one before them. */
  readonly doubted: Heard[];
  before: number;
}

interface Heard {
  readonly t: number;
  readonly value: number;
}

export const newWild = (): Wild => ({ doubted: [], before: NaN });

/** What is known of where the stem may be, and of the gauge. */
interface Whereabouts {
  readonly corridor: Readonly<Corridor> | undefined;
  /** Usual time between two readings, s; 0 while unknown. */
  readonly interval: number;
}

/** Farther than this from the reading before, in standard deviations, is a leap. */
const LEAP = 8;
/** Back within this share of the leap is back. */
const BACK = 0.25;
/** No stem is lifted and set down again within this time (assumed: a third of the quickest lift). */
const NO_LIFT_s = 0.2;

/** Does this reading go on where the last one was, with none held back before it? Then it is judged at once. */
export function goesOn(wild: Wild, value: number, corridor: Readonly<Corridor> | undefined, noise: number): boolean {
  if (wild.doubted.length > 0 || leaps(wild.before, value, corridor, noise)) return false;
  wild.before = value;
  return true;
}

/** Takes in a reading that does not go on; gives those that are to be judged now, none while a leap waits to be borne out. */
export function sifted(wild: Wild, reading: Heard, where: Whereabouts): readonly Heard[] {
  const { doubted } = wild;
  const [first] = doubted;
  if (first !== undefined && isBack(wild.before, first.value, reading.value, where)) {
    doubted.length = 0;
    wild.before = reading.value;
    return [reading];
  }
  doubted.push(reading);
  return doubted.length > patience(where) ? letGo(wild) : [];
}

/** More than one wild reading in a row is believed only of a gauge that sends many while a stem is lifted. */
const patience = ({ interval }: Whereabouts): number => (interval > 0 && 3 * interval < NO_LIFT_s ? 2 : 1);

function letGo(wild: Wild): readonly Heard[] {
  const readings = wild.doubted.splice(0);
  wild.before = readings.at(-1)?.value ?? wild.before;
  return readings;
}

const leaps = (before: number, value: number, corridor: Readonly<Corridor> | undefined, noise: number): boolean =>
  corridor === undefined ? Math.abs(value - before) > LEAP * noise : isOutside(corridor, value);

function isBack(before: number, leapt: number, value: number, { corridor }: Whereabouts): boolean {
  return corridor === undefined
    ? Math.abs(value - before) < BACK * Math.abs(leapt - before)
    : !isOutside(corridor, value);
}
