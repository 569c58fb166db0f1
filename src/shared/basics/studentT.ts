import quantile from '@stdlib/stats-base-dists-t-quantile';

/**
 * Degrees of freedom from which a spread counts as fully known. The t factor then differs from the normal one by
 * a millionth, and unlike Infinity the number survives a file: JSON would turn Infinity into null.
 */
export const manyDegrees = 1_000_000;

/**
 * Quantile of Student's t: the value that a t variable with `nu` degrees of freedom stays below with
 * probability `p`. `nu` may be a fraction; from {@link manyDegrees} on it is held there.
 * The library underneath is exact to ten digits in the tails where coverage factors live; close to the middle with very
 * many degrees of freedom it rounds to 0, so p is asked to be at least 0.6.
 * @throws RangeError for p outside 0.6…1 or nu not above 0, which is a defect of the caller.
 */
export function tQuantile(p: number, nu: number): number {
  if (!(p >= 0.6 && p < 1 && nu > 0)) throw new RangeError(`No t quantile for p ${p} and ${nu} degrees of freedom`);
  return quantile(p, Math.min(nu, manyDegrees));
}

/** Coverage factor for 95 %, two-sided: t at 0.975. 1.96 when the spread is fully known, 12.7 with one degree of freedom. */
export const t95 = (nu: number): number => tQuantile(0.975, nu);
