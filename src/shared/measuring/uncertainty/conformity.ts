/** At least one end, in the unit of the value. */
interface Within {
  readonly min?: number;
  readonly max?: number;
}

/**
 * Probability that the true value lies within the limits, given a reading and its standard uncertainty, when nothing
 * else is known about the true value (JCGM 106:2012, 7.2 to 7.4).
 */
export function conformanceProbability(value: number, u: number, { min = -Infinity, max = Infinity }: Within): number {
  if (u === 0) return value >= min && value <= max ? 1 : 0;
  const above = (max - value) / u;
  const below = (min - value) / u;
  // Worked on the side where both are small, so that a probability near zero keeps its digits.
  return below > 0 ? normalTail(below) - normalTail(above) : normalTail(-above) - normalTail(-below);
}

/** Probability that a standard normal variable exceeds z. */
export function normalTail(z: number): number {
  if (z === Infinity) return 0;
  if (z === -Infinity) return 1;
  if (z < 0) return 1 - normalTail(-z);
  return z < 3 ? 0.5 - density(z) * seriesFromCentre(z) : density(z) * tailFraction(z);
}

const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** z + z³/3 + z⁵/(3·5) + …: the area from the centre, divided by the density (a textbook series). */
function seriesFromCentre(z: number): number {
  let term = z;
  let sum = z;
  for (let odd = 3; term > 1e-17 * sum; odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return sum;
}

/** 1/(z + 1/(z + 2/(z + 3/(z + …)))): the tail divided by the density; the series above loses its digits out there. */
function tailFraction(z: number): number {
  let fraction = z;
  for (let step = 200; step >= 1; step -= 1) fraction = z + step / fraction;
  return 1 / fraction;
}
