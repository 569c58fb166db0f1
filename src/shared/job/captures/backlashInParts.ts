import { aroundTheGear } from '../../measuring/backlash/around.ts';
import {
  type BacklashCapture,
  type BacklashEvent,
  type BacklashMeasured,
  type BacklashSettings,
  finishBacklash,
  startBacklash,
  stepBacklash,
} from '../../measuring/backlash/capture.ts';
import type { StationMeasured } from '../../measuring/backlash/measured.ts';
import { isPress, type StreamItem } from '../../measuring/reading.ts';
import type { Time } from '../../basics/quantity.ts';
import { isNone } from '../../basics/result.ts';

/** A backlash that may be taken in several parts, between which nobody listened. */
interface BacklashInParts {
  step(item: StreamItem): readonly BacklashEvent[];
  /** Nobody listens from here on: the station at work is taken anew later, those that are done stay. */
  breakOff(): void;
  /** The stations that are done or refused, as they would stay if it were broken off now. */
  taken(): readonly StationMeasured[];
  finish(): BacklashMeasured;
}

/**
 * Rests on both sides of a break never make one rock: the hand may have been anywhere in between, and the stem on
 * another tooth. So each part is a capture of its own, and only whole stations go from one part to the next.
 * @param before stations of earlier parts, in order; their numbers stay theirs.
 */
export function backlashInParts(settings: BacklashSettings, before: readonly StationMeasured[] = []): BacklashInParts {
  let done = [...before];
  let part = begin(settings, done);

  const backOne = (t: Time): readonly BacklashEvent[] => {
    done = done.slice(0, -1);
    part = begin(settings, done);
    return [{ kind: 'taken-anew', station: done.length + 1, t }];
  };
  return {
    step(item) {
      const takesBack = isPress(item) && item.pedal === 'again' && isUntouched(part) && done.length > 0;
      return takesBack ? backOne(item.t) : stepBacklash(part, item).map((event) => shifted(event, done.length));
    },
    breakOff() {
      done = [...done, ...part.results];
      part = begin(settings, done);
    },
    taken: () => [...done, ...part.results],
    finish: () => aroundTheGear([...done, ...finishBacklash(part).stations]),
  };
}

/** A part goes on until there are as many numbers as were wanted in all. */
function begin({ stations, ...settings }: BacklashSettings, done: readonly StationMeasured[]): BacklashCapture {
  if (stations === undefined) return startBacklash(settings);
  const valued = done.filter(({ value }) => !isNone(value)).length;
  return startBacklash({ ...settings, stations: stations - valued });
}

const isUntouched = ({ station, results }: BacklashCapture): boolean => station === undefined && results.length === 0;

const shifted = (event: BacklashEvent, by: number): BacklashEvent =>
  by === 0 ? event : { ...event, station: event.station + by };
