/** The builds that do not count, with one more left out or taken in again. */
export const withBuild = (leftOut: readonly string[], build: string, counts: boolean): string[] => {
  const others = leftOut.filter((id) => id !== build);
  return counts ? others : [...others, build];
};
