import type { Weight } from './benchUnderTest.ts';

/** What a bench took at a moment of the soak. */
export type WeightThen = Weight & { readonly at_s: number };

/** From the first to the last of the last life, and by how much an hour it rose behind its first third (least squares). */
export function weightWords(weights: readonly WeightThen[], what: keyof Weight): string {
  const known = weights.flatMap((weight) => {
    const much = weight[what];
    return much === undefined ? [] : [{ t: weight.at_s, y: much }];
  });
  if (known.length < 2) return 'not known';
  const settled = known.slice(Math.floor(known.length / 3));
  const mean = (numbers: readonly number[]): number => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
  const [t, y] = [mean(settled.map((one) => one.t)), mean(settled.map((one) => one.y))];
  const rise = settled.reduce((sum, one) => sum + (one.t - t) * (one.y - y), 0);
  const spread = settled.reduce((sum, one) => sum + (one.t - t) ** 2, 0);
  const ends = [known[0], known.at(-1)].map((one) => (one?.y ?? 0).toFixed(0));
  return `${ends.join(' to ')}, ${((3600 * rise) / spread).toFixed(1)} an hour`;
}
