import type { CaptureEvent } from '../../shared/job/captures/capture.ts';
import { showText, type UnitSystem } from '../../shared/basics/show.ts';
import type { CaptureSettings } from '../../shared/job/records/measurement.ts';
import { endsOf, type Limit, type SpecSheet } from '../../shared/job/records/specSheet.ts';
import { isNone } from '../../shared/basics/result.ts';
import { reasonSentence } from '../../shared/presentation/words/refusals.ts';
import { limitFor, standOf } from '../../shared/presentation/drawing/stations.ts';
import type { Shape } from '../../shared/presentation/words/standing.ts';
import type { Cue } from './cue.ts';
import { noCase } from '../../shared/basics/noCase.ts';

interface CueWords {
  readonly cue: Cue;
  readonly words: string;
  readonly spoken?: string;
  /** How the number stands against its limit; what was held against nothing has no verdict's shape. */
  readonly shape?: Shape;
}

/**
 * Which of the five cues tells what was found, with its words; nothing for what needs no looking up.
 * @param settings how it is being measured: only a limit of the same basis calls a station outside.
 */
export function cueOf(
  event: CaptureEvent,
  units: UnitSystem,
  sheet: SpecSheet | undefined,
  settings?: CaptureSettings,
): CueWords | undefined {
  switch (event.kind) {
    case 'rest-found':
      return { cue: 'rest', words: 'Rest' };
    case 'spread-rest':
      return {
        cue: 'rock',
        words: `${event.number === 1 ? 'Without preload' : 'Preloaded'}, ${showText(event.level, 'length', units)}`,
      };
    case 'rock-counted':
      return { cue: 'rock', words: `Rock ${event.rocks}, ${showText(event.value, 'length', units)}` };
    case 'station-done': {
      const { value, U95 } = event.measured;
      if (isNone(value)) return undefined;
      const shown = showText(value, 'length', units);
      const limit = limitFor(sheet, 'backlash', basisOf(settings));
      const shape = standOf({ value_mm: value, U95_mm: U95 }, limit, sheet);
      const outside = shape === 'outside';
      const words = `Station ${event.station}: ${shown}${outside ? beyondWords(value, limit, units) : ''}`;
      return { cue: outside ? 'outside' : 'done', words, spoken: words, shape };
    }
    case 'station-refused': {
      const why = event.measured.why ?? reasonSentence(event.reason);
      return { cue: 'refused', words: `Station ${event.station}: ${why}`, spoken: why };
    }
    // The gear stands further on: whoever takes a station back has to turn it back as well.
    case 'taken-anew': {
      const words = `Back to station ${event.station}`;
      return { cue: 'rest', words, spoken: words };
    }
    case 'nothing-measured':
      return { cue: 'refused', words: 'Nothing was rocked here yet.' };
    case 'station':
      return { cue: 'rock', words: `Station ${event.number}, ${showText(event.value, 'length', units)}` };
    case 'turn':
      return { cue: settings?.kind === 'runout' ? 'done' : 'rock', words: turnWords(event.turns) };
    case 'again':
    case 'all-done':
    case 'gap':
    case 'landed':
    case 'let-go':
    case 'lifted':
    case 'pulling':
      return undefined;
    default:
      throw noCase(event);
  }
}

/** Which way and how much: ", 0.031 mm above". */
function beyondWords(value: number, limit: Limit | undefined, units: UnitSystem): string {
  const { min = -Infinity, max = Infinity } = limit === undefined ? {} : endsOf(limit);
  if (value > max) return `, ${showText(value - max, 'length', units)} above`;
  return value < min ? `, ${showText(min - value, 'length', units)} below` : ', outside';
}

const basisOf = (settings: CaptureSettings | undefined) => (settings?.kind === 'backlash' ? settings.basis : undefined);

const turnWords = (turns: number): string => (turns === 1 ? 'One whole turn' : `${turns} whole turns`);
