import { describe, expect, it } from 'vitest';
import { addTo, mean, noMoments, sd, sdOf } from '../../../src/shared/basics/statistics.ts';
import { certified, correctDigits, nistRows } from './nist.ts';

// Source: NIST StRD, univariate summary statistics; certified values read from the files themselves (retrieved).
// Floors: what two-pass double arithmetic can reach (derived). NumAcc3 and NumAcc4 end in tenths that binary fractions
// cannot hold beside six and seven leading digits, so no double arithmetic on the stored numbers goes further.
const sets = [
  { name: 'PiDigits', n: 5000, sdDigits: 13 },
  { name: 'Lottery', n: 218, sdDigits: 13 },
  { name: 'Lew', n: 200, sdDigits: 13 },
  { name: 'Mavro', n: 50, sdDigits: 12.9 },
  { name: 'Michelso', n: 100, sdDigits: 13 },
  { name: 'NumAcc1', n: 3, sdDigits: 15 },
  { name: 'NumAcc2', n: 1001, sdDigits: 13 },
  { name: 'NumAcc3', n: 1001, sdDigits: 9 },
  { name: 'NumAcc4', n: 1001, sdDigits: 8 },
];

describe.each(sets)('NIST $name', ({ name, n, sdDigits }) => {
  const values = nistRows(name).flat();
  const certifiedSd = certified(name, /Sample Standard Deviation \(denom\. = n-1\)/u);

  it('is read whole', () => expect(values).toHaveLength(n));

  it('mean', () => {
    expect(correctDigits(mean(values), certified(name, /Sample Mean/u))).toBeGreaterThanOrEqual(14);
  });

  it('standard deviation', () => {
    expect(correctDigits(sd(values), certifiedSd)).toBeGreaterThanOrEqual(sdDigits);
  });

  it('standard deviation, grown one reading at a time', () => {
    const grown = noMoments();
    for (const value of values) addTo(grown, value);
    expect(correctDigits(sdOf(grown), certifiedSd)).toBeGreaterThanOrEqual(Math.min(sdDigits, 12));
  });
});

it('sees the difference to a one-pass formula, which loses every digit on NumAcc4', () => {
  const values = nistRows('NumAcc4').flat();
  const squares = values.reduce((sum, value) => sum + value * value, 0);
  const onePass = Math.sqrt((squares - values.length * mean(values) ** 2) / (values.length - 1));
  expect(correctDigits(onePass, 0.1) < 1 || Number.isNaN(onePass)).toBe(true);
});
