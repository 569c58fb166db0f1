/**
 * Words as they are compared: without marks on letters, case, and more than one space. A person who looks for "muller" means
 * "Müller" (Unicode NFKD, marks left out).
 */
export const folded = (text: string): string =>
  text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase().replaceAll(/\s+/gu, ' ').trim();

/** A plate or number is typed with and without its gaps: letters and digits alone. */
export const closedUp = (text: string): string => folded(text).replaceAll(/[^\p{L}\p{N}]+/gu, '');

/** The words sought, each once, in no order. */
export const soughtWords = (sought: string): readonly string[] => [
  ...new Set(
    folded(sought)
      .split(' ')
      .filter((word) => word !== ''),
  ),
];
