/**
 * Degrees of freedom from which a spread counts as fully known. The t factor then differs from the normal one by
 * a millionth, and unlike Infinity the number survives a file: JSON would turn Infinity into null.
 */
export const manyDegrees = 1_000_000;

/**
 * Quantile of Student's t: the value that a t variable with `nu` degrees of freedom stays below with
 * probability `p`. `nu` may be a fraction; from {@link manyDegrees} on it is held there.
 * Newton's step on the logarithms of t and of the tail, which are nearly a straight line: three or four steps, and none
 * longer than the tail stays within a double.
 * Checked against published tables and, digit by digit, against an independent library.
 * @throws RangeError for p outside 0.6…1 or nu not above 0, which is a defect of the caller. Coverage factors lie in the tails;
 *   towards the middle ln t has no end.
 */
export function tQuantile(p: number, nu: number): number {
  if (!(p >= 0.6 && p < 1 && nu > 0)) throw new RangeError(`No t quantile for p ${p} and ${nu} degrees of freedom`);
  const degrees = Math.min(nu, manyDegrees);
  const wanted = 1 - p;
  const longest = 0.5 + 20 / degrees;
  let lnT = Math.log(nearly(wanted, degrees));
  for (let step = 0; step < mostSteps; step += 1) {
    const t = Math.exp(lnT);
    const tail = tailAbove(t, degrees);
    // d ln(tail) / d ln(t) = −t · density / tail
    const change = Math.min((Math.log(tail / wanted) * tail) / (t * density(t, degrees)), longest);
    lnT += change;
    if (Math.abs(change) < finest) break;
  }
  return Math.exp(lnT);
}

/** Coverage factor for 95 %, two-sided: t at 0.975. 1.96 when the spread is fully known, 12.7 with one degree of freedom. */
export const t95 = (nu: number): number => tQuantile(0.975, nu);

const mostSteps = 60;
/** Of ln t: Newton's error is squared with every step, so the one after this is below the last digit. */
const finest = 1e-9;

/**
 * Where to begin: the normal quantile to three digits (Abramowitz and Stegun 26.2.22) and the first term by which t exceeds it (26.7.5).
 */
function nearly(tail: number, nu: number): number {
  const s = Math.sqrt(-2 * Math.log(tail));
  const z = s - (2.30753 + 0.27061 * s) / (1 + s * (0.99229 + 0.04481 * s));
  return z + (z * z * z + z) / (4 * nu);
}

/** Density of Student's t (textbook). */
const density = (t: number, nu: number): number =>
  (gammaRatio(nu / 2) / Math.sqrt(nu * Math.PI)) * Math.exp(-((nu + 1) / 2) * Math.log1p((t * t) / nu));

/** Beyond this the tail is so thin that taking it as the rest to 1 would cost digits. */
const thinFrom = 3;

/** Probability of a value above t > 0: half the regularised incomplete beta function of ν/2 and ½ at ν/(ν + t²). */
function tailAbove(t: number, nu: number): number {
  const a = nu / 2;
  const squared = (t * t) / nu;
  const x = 1 / (1 + squared);
  const y = squared / (1 + squared);
  // x^a · y^½ / B(a, ½), with B(a, ½) = √π · Γ(a) / Γ(a + ½)
  const front = (Math.exp(-a * Math.log1p(squared)) * Math.sqrt(y) * gammaRatio(a)) / Math.sqrt(Math.PI);
  if (t < thinFrom && squared < 1) return 0.5 - front * middleSeries(a, y);
  return (front * tailFraction(a, x)) / a / 2;
}

/** Half the incomplete beta function of ½ and a at y, over its front factor (DLMF 8.17.8): terms all positive, for small y. */
function middleSeries(a: number, y: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 0; term > sum * Number.EPSILON; n += 1) {
    term *= ((a + 0.5 + n) * y) / (1.5 + n);
    sum += term;
  }
  return sum;
}

const mostTerms = 10_000;

/** Continued fraction of the incomplete beta function of a and ½ (DLMF 8.17.22), evaluated forwards by Lentz's way. */
function tailFraction(a: number, x: number): number {
  let d = 1 / (1 - ((a + 0.5) * x) / (a + 1));
  let c = 1;
  let value = d;
  const take = (numerator: number): void => {
    d = 1 / (1 + numerator * d);
    c = 1 + numerator / c;
    value *= d * c;
  };
  for (let m = 1; m < mostTerms; m += 1) {
    take((m * (0.5 - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)));
    take((-(a + m) * (a + 0.5 + m) * x) / ((a + 2 * m) * (a + 2 * m + 1)));
    if (Math.abs(d * c - 1) < Number.EPSILON) break;
  }
  return value;
}

/** From here on the series below is exact to a double. */
const farEnough = 30;

/**
 * Γ(x + ½) / Γ(x). Its own series (DLMF 5.11.13) loses no digits at a million degrees of freedom, where the difference of
 * two logarithms of Γ would lose seven; small x is raised first by Γ(x + 1) = x · Γ(x).
 */
function gammaRatio(x: number): number {
  let raised = x;
  let factor = 1;
  while (raised < farEnough) {
    factor *= (raised + 0.5) / raised;
    raised += 1;
  }
  const i = 1 / raised;
  const far = i * i * i * (5 / 1024 + i * (-21 / 32_768 + i * (-399 / 262_144 + i * (869 / 4_194_304))));
  return (Math.sqrt(raised) * (1 + i * (-1 / 8 + i / 128) + far)) / factor;
}
