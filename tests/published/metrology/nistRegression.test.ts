import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../../src/shared/basics/leastSquares.ts';
import { sd, span } from '../../../src/shared/basics/statistics.ts';
import { certified, certifiedCoefficient, correctDigits, nistRows } from './nist.ts';

const powers = (degree: number) => (x: number) => Array.from({ length: degree + 1 }, (_, power) => x ** power);

// Source: NIST StRD, linear regression; certified values read from the files themselves (retrieved). Pontius is a load
// cell's calibration, the nearest to a torque gauge's; NoInt1 goes through zero; Longley and Filip are nearly collinear.
// Floors stand a little under what these reflections were measured to give (this test prints the rest when it fails).
const sets = [
  { name: 'Norris', columns: powers(1), first: 0, digits: 12, uDigits: 12 },
  { name: 'NoInt1', columns: (x: number) => [x], first: 1, digits: 14, uDigits: 14 },
  { name: 'Pontius', columns: powers(2), first: 0, digits: 11, uDigits: 11 },
  { name: 'Filip', columns: powers(10), first: 0, digits: 6, uDigits: 6 },
  { name: 'Longley', columns: (...xs: readonly number[]) => [1, ...xs], first: 0, digits: 10, uDigits: 10 },
];

describe.each(sets)('NIST $name', ({ name, columns, first, digits, uDigits }) => {
  const rows = nistRows(name);
  const fit = leastSquares(
    rows.map(([, x = 0, ...more]) => columns(x, ...more)),
    rows.map(([y = 0]) => y),
  );

  it('coefficients and their standard deviations', () => {
    expect(fit?.coefficients.length).toBeGreaterThan(0);
    for (const [index, found] of (fit?.coefficients ?? []).entries()) {
      const [value, u] = certifiedCoefficient(name, first + index);
      expect(correctDigits(found, value), `B${first + index}`).toBeGreaterThanOrEqual(digits);
      expect(correctDigits(fit?.u[index] ?? 0, u), `u of B${first + index}`).toBeGreaterThanOrEqual(uDigits);
    }
  });

  it('residual standard deviation', () => {
    const expected = certified(name, /Residual\s+Standard Deviation/u);
    expect(correctDigits(fit?.sd ?? 0, expected)).toBeGreaterThanOrEqual(digits);
  });
});

it('NIST Wampler1: an exact polynomial of degree 5, every coefficient 1', () => {
  const rows = nistRows('Wampler1');
  const fit = leastSquares(
    rows.map(([, x = 0]) => powers(5)(x)),
    rows.map(([y = 0]) => y),
  );
  for (const found of fit?.coefficients ?? [0]) expect(correctDigits(found, 1)).toBeGreaterThanOrEqual(8);
});

/** The columns of the last `each` rows: one column a group. */
function groupsOf(name: string, groups: number, each: number): readonly (readonly number[])[] {
  const rows = nistRows(name)
    .filter((row) => row.length === groups)
    .slice(-each);
  return Array.from({ length: groups }, (_, column) => rows.map((row) => row[column] ?? Number.NaN));
}

// Source: NIST StRD, one-way analysis of variance (retrieved): the certified residual standard deviation is the pooled
// repeatability of the groups.
describe.each([
  { name: 'SiRstvt', groups: 5, each: 5, digits: 9 },
  { name: 'SmLs01t', groups: 9, each: 21, digits: 13 },
  { name: 'AtmWtAgt', groups: 2, each: 24, digits: 7.5 },
])('NIST $name', ({ name, groups, each, digits }) => {
  const columns = groupsOf(name, groups, each);

  it('standard deviations of the groups, pooled', () => {
    const pooled = Math.sqrt(columns.reduce((sum, column) => sum + sd(column) ** 2, 0) / groups);
    expect(correctDigits(pooled, certified(name, /Residual\s+Standard Deviation/u))).toBeGreaterThanOrEqual(digits);
  });
});

// Derived from NIST StRD SiRstvt: the five ranges.
it('NIST SiRstvt: ranges of the groups', () => {
  const ranges = groupsOf('SiRstvt', 5, 5).map(span);
  expect(ranges.map((range) => Number(range.toFixed(4)))).toEqual([0.2163, 0.3403, 0.2546, 0.291, 0.2067]);
});
