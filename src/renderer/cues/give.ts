import { create } from 'zustand';
import { useSession } from '../stores/session.ts';
import type { Shape } from '../../shared/presentation/words/standing.ts';
import type { Cue } from './cue.ts';
import { sound } from './sound.ts';
import { say } from './speech.ts';

/** The cue the picture shows now. `count` tells two of the same kind apart. */
interface CueShown {
  readonly cue: Cue | undefined;
  readonly words: string;
  /** The verdict's shape beside the words, where there is a verdict. */
  readonly shape?: Shape | undefined;
  readonly count: number;
}

export const useCue = create<CueShown>()(() => ({ cue: undefined, words: '', count: 0 }));

/** How long the picture keeps each cue, in milliseconds: a tick for what comes often, long enough to look up for the rest. */
const shownFor_ms: Readonly<Record<Cue, number>> = { rest: 350, rock: 600, done: 1600, outside: 2400, refused: 3000 };

let ending: ReturnType<typeof setTimeout> | undefined;

/** Takes the cue off the picture: whoever has gone on has seen it. */
export const endCue = (): void => useCue.setState({ cue: undefined });

/**
 * Tells the technician, by sound, by picture and (for a number) by voice, as far as each is switched on.
 * @param words what the picture says with it: "0.213 mm", "Both rests drift together".
 * @param spoken what the voice says, if anything.
 * @param shape how the number stands, where it is judged.
 */
export function giveCue(cue: Cue, words: string, spoken?: string, shape?: Shape): void {
  const { sound: sounding, pictureCues, spoken: speaking } = useSession.getState();
  if (sounding) sound(cue);
  if (speaking && spoken !== undefined) say(spoken);
  if (!pictureCues) return;
  clearTimeout(ending);
  useCue.setState(({ count }) => ({ cue, words, shape, count: count + 1 }));
  ending = setTimeout(endCue, shownFor_ms[cue]);
}
