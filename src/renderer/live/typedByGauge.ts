/** Keys closer together than this come from a machine; the quickest hands roll two keys in about twice that (common practice). */
export const machine_ms = 35;
/** Two keys can fall together by accident; three do not. */
const fewestByMachine = 3;

/** What is done with keys held back: given back to whoever typed them, or taken for a gauge's line. */
export type Sorted = { readonly person: string } | { readonly line: string } | { readonly broken: string };

interface KeySorter {
  /** A character came at `at_ms`; it is held until it is clear whose it is. Gives back what was held before, if that is over. */
  readonly character: (character: string, at_ms: number) => Sorted | undefined;
  /** Enter or Tab: ends a gauge's line. Undefined when nothing is held; then the key is the person's own. */
  readonly end: (at_ms: number) => Sorted | undefined;
  /** Time has passed with no key. */
  readonly quiet: (at_ms: number) => Sorted | undefined;
}

/**
 * Tells a gauge that types like a keyboard from a person: by speed, and by the key that ends the line. A gauge that stops
 * before its end has sent a part of a number, and a part is never taken for the whole.
 */
export function keySorter(): KeySorter {
  let held = '';
  let last_ms = -Infinity;

  const letGo = (): Sorted | undefined => {
    const text = held;
    held = '';
    if (text === '') return undefined;
    return text.length >= fewestByMachine ? { broken: text } : { person: text };
  };
  const isOver = (at_ms: number): boolean => at_ms - last_ms > machine_ms;

  return {
    character: (character, at_ms) => {
      const before = isOver(at_ms) ? letGo() : undefined;
      held += character;
      last_ms = at_ms;
      return before;
    },
    end: (at_ms) => {
      if (held.length < fewestByMachine - 1 || isOver(at_ms)) return letGo();
      const line = held;
      held = '';
      return { line };
    },
    quiet: (at_ms) => (isOver(at_ms) ? letGo() : undefined),
  };
}
