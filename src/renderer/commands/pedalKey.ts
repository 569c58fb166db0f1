import type { KeyStroke } from './strokes.ts';

/** Keys that must keep their own meaning, whatever a pedal sends. */
const reserved = /^(Escape|Tab|Enter|Shift|Control|Alt|Meta|Arrow|PageUp|Backspace)/u;

/**
 * Why this key cannot be the pedal's, in a sentence for the technician; undefined where it can. A pedal set to a key that means
 * something else already would do both.
 */
export function whyNoPedal(
  { code, key }: Pick<KeyStroke, 'code' | 'key'>,
  commands: readonly { readonly key: string; readonly title: string }[],
): string | undefined {
  if (code === '') return 'This key has no name the bench could know it by.';
  if (reserved.test(code)) return `${key} keeps its own meaning. Set the pedal to a function key or Page Down.`;
  const taken = commands.find((command) => command.key === key.toUpperCase());
  if (taken !== undefined) return `${taken.key} is for “${taken.title}”. Set the pedal to a function key or Page Down.`;
  // Letters and digits are written into fields: a pedal that sends one would write it there.
  return key.length === 1 && key !== ' '
    ? `${key} is written into fields. Set the pedal to a function key.`
    : undefined;
}
