/**
 * Everything a key or the foot pedal can do, in one register. A screen enters its commands while it is shown;
 * of several for one key the last entered counts, so that the stage goes before the frame.
 */
interface Command {
  /** Words for the list of keys, beginning with a verb. */
  readonly title: string;
  /** How the key is written: "M", "Ctrl+Z", "Escape", or one of the two pedal strokes. */
  readonly key: string;
  readonly run: () => void;
}

/** Pedal strokes are named for what they mean; which key they are is the technician's setting. */
export const pedalNext = 'next';
export const pedalAgain = 'again';

const entered: Command[] = [];

/** Enters a command; the function returned takes it out again. */
export function enter(command: Command): () => void {
  entered.push(command);
  return () => {
    const at = entered.indexOf(command);
    if (at >= 0) entered.splice(at, 1);
  };
}

export const commandFor = (key: string): Command | undefined => entered.findLast((command) => command.key === key);

/** Each key once, with the command that would run now. */
export const commandsNow = (): readonly Command[] =>
  [...new Set(entered.map((command) => command.key))].flatMap((key) => commandFor(key) ?? []);
