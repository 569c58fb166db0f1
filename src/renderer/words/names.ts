/** The first letters of the first and the last word of a name: "RL" for "R. Lindqvist". */
export function initialsOf(name: string): string {
  const words = name.trim().split(/\s+/u);
  const letters = [words[0], words.length > 1 ? words.at(-1) : undefined];
  return letters
    .map(
      (word) =>
        Array.from(word ?? '')
          .at(0)
          ?.toUpperCase() ?? '',
    )
    .join('');
}
