/**
 * How many times the variance of a mean is that of as many independent values: 1 + 2·Σρ, summed while neighbouring
 * correlations taken two and two stay positive (initial positive sequence, Geyer 1992; from memory). Never under 1: a hand's
 * swing that happens to cancel is no knowledge.
 * @param residuals evenly spaced, what is left after everything that repeats with the turn
 */
export function correlationFactor(residuals: readonly number[]): number {
  const n = residuals.length;
  const whole = covariance(residuals, 0);
  if (n < 4 || whole === 0) return 1;
  let sum = -whole;
  for (let lag = 0; lag + 1 < n / 2; lag += 2) {
    const pair = covariance(residuals, lag) + covariance(residuals, lag + 1);
    if (pair <= 0) break;
    sum += 2 * pair;
  }
  return Math.min(n, Math.max(1, sum / whole));
}

/** Around nought: residuals of a fit have no mean of their own. */
function covariance(residuals: readonly number[], lag: number): number {
  let sum = 0;
  for (let index = lag; index < residuals.length; index += 1) {
    sum += (residuals[index] ?? 0) * (residuals[index - lag] ?? 0);
  }
  return sum / residuals.length;
}
