import { seconds, type Time } from '../../basics/quantity.ts';
import { leavePause, newPauseFinder, type Pause, type PauseFinder, pauseNow, stepPauses } from './pauses.ts';
import { isPress, type Reading, type StreamItem } from '../reading.ts';
import { noiseOf } from '../sieve.ts';
import { stepRunout } from './runoutCapture.ts';
import {
  forget,
  quiet,
  type RunoutCapture,
  type RunoutEvent,
  type RunoutSettings,
  startRunout,
  stationFound,
} from './runoutState.ts';

/*
 * A runout at stations whose taking was broken off (another screen was looked at, the bench ended) and goes on.
 *
 * Stations of a runout are read against one position of the indicator, so they go on only where it still stands as it stood: the
 * station that was read last is read once more, and the count goes on when it reads the same. Whoever comes back to another
 * place, or has moved the base, does not get there, and begins again. A turn without a stop has nothing that stays.
 */

/** A runout that may be taken in several parts, between which nobody listened. */
export interface RunoutInParts {
  /** The runout itself, for its figures. */
  readonly capture: RunoutCapture;
  step(item: StreamItem): readonly RunoutEvent[];
  /** Nobody listens from here on. */
  breakOff(): void;
}

/** What has to be met again before it goes on. */
interface Awaited {
  readonly station: Pause;
  readonly number: number;
  readonly finder: PauseFinder;
  /** What came since the hand stands where it stands now. */
  since: readonly Reading[];
}

/** As much of the clock passes over a break as a hand needs for nothing: what lies in it is not known (own choice), s. */
const overBreak_s = 1;
/** Readings of one rest kept for the count that goes on, so that a bench left alone does not fill up. */
const mostKept = 600;

/** Begins. @throws RangeError as startRunout does. */
export function runoutInParts(settings: RunoutSettings): RunoutInParts {
  const capture = startRunout(settings);
  let awaited: Awaited | undefined;
  /** Whoever presses at each station presses at the one that was read once more, too. */
  let metAgain: number | undefined;
  // The runout's own clock stands still over a break and while it waits; the bench's may have begun anew meanwhile.
  let [shift, lastT] = [0, 0];

  const take = (item: StreamItem): readonly RunoutEvent[] => {
    lastT = item.t + shift;
    const events = stepRunout(capture, { ...item, t: seconds(lastT) });
    return shift === 0 ? events : events.map((event) => ({ ...event, t: seconds(event.t - shift) }));
  };
  const goOn = ({ station, number, since }: Awaited, t: Time): readonly RunoutEvent[] => {
    awaited = undefined;
    shift = lastT + overBreak_s - (since[0]?.t ?? t);
    // What was pressed needs no rest, and nothing else tells it again.
    if (capture.pressed.length > 0) {
      metAgain = station.value;
      return [stationFound({ ...station, t }, number), ...since.flatMap(take)];
    }
    findAnew(capture, number);
    return since.flatMap(take);
  };
  return {
    capture,
    step(item) {
      if (isPress(item) && item.pedal === 'again') awaited = undefined;
      if (awaited === undefined) {
        if (metAgain === undefined) return take(item);
        const isThere = isPress(item) ? item.pedal === 'next' : Math.abs(item.value - metAgain) <= bandOf(capture);
        if (!isThere || isPress(item)) metAgain = undefined;
        return isThere && isPress(item) ? quiet : take(item);
      }
      if (isPress(item)) return quiet;
      return meets(capture, awaited, item) ? goOn(awaited, item.t) : quiet;
    },
    breakOff() {
      const last = awaited ?? lastStation(capture);
      awaited =
        last === undefined ? undefined : { ...last, finder: newPauseFinder(capture.settings.resolution), since: [] };
      if (last === undefined) forget(capture);
    },
  };
}

/** How many stations are there, and the last of them; none of a turn without a stop. */
export function lastStation(capture: RunoutCapture): { readonly station: Pause; readonly number: number } | undefined {
  const { settings, pressed, pauses, finder } = capture;
  if (settings.mode !== 'stations') return undefined;
  if (pressed.length > 0) return numbered(pressed);
  const now = pauseNow(finder);
  return numbered(now === undefined ? pauses : [...pauses, now]);
}

function numbered(stations: readonly Pause[]): { readonly station: Pause; readonly number: number } | undefined {
  const station = stations.at(-1);
  return station === undefined ? undefined : { station, number: stations.length };
}

/** Whether the hand stands still where the last station was read, as far as the indicator tells. */
function meets(capture: RunoutCapture, awaited: Awaited, reading: Reading): boolean {
  const { finder, station } = awaited;
  const noise = noiseOf(capture.sieve);
  const lone = station.n === 1;
  if (!lone && stepPauses(finder, reading.t, reading.value, Number.NaN, noise) === 'ended') leavePause(finder);
  const rest = lone ? reading.value : pauseNow(finder)?.value;
  awaited.since = finder.resting || lone ? [...awaited.since, reading].slice(-mostKept) : [reading];
  return rest !== undefined && Math.abs(rest - station.value) <= bandOf(capture);
}

/** So far apart two rests at one place may read. */
const bandOf = ({ settings, sieve }: RunoutCapture): number => Math.max(2 * settings.resolution, 4 * noiseOf(sieve));

/** The rest of the last station is found once more, and may not count twice. */
function findAnew(capture: RunoutCapture, number: number): void {
  capture.pauses = capture.pauses.slice(0, number - 1);
  leavePause(capture.finder);
}
