import { describe, expect, it } from 'vitest';
import { seeded } from '../../../hardware-sim/seeded.ts';
import { type Cusum, stepCusum } from '../../../src/shared/measuring/cusum.ts';

/**
 * Average number of readings until a two-sided CUSUM with k = 0.5 passes h, for a step of so many standard deviations.
 * h = 4: Lucas and Crosier (1982), as quoted in the manual page xcusum.arl of the package spc on CRAN (retrieved).
 * h = 5: derived by an integral equation; agrees with recalled figures.
 * What ends a still of the backlash capture is this step with a slack and a threshold of its own.
 */
const published: readonly (readonly [h: number, shift: number, runLength: number])[] = [
  [4, 0, 168],
  [4, 0.25, 74.2],
  [4, 0.5, 26.6],
  [4, 0.75, 13.3],
  [4, 1, 8.38],
  [4, 1.5, 4.75],
  [4, 2, 3.34],
  [4, 2.5, 2.62],
  [4, 3, 2.19],
  [4, 4, 1.71],
  [4, 5, 1.31],
  [5, 0, 465.444],
  [5, 0.5, 37.996],
  [5, 1, 10.376],
  [5, 2, 4.009],
  [5, 4, 2.013],
];
const runs = 6000;

describe('the CUSUM’s step, against published run lengths at the papers’ slack and thresholds', () => {
  it.each(published)('h %s, a step of %s: %s readings on average', (h, shift, expected) => {
    const chance = seeded(1982);
    let readings = 0;
    let squares = 0;
    for (let run = 0; run < runs; run += 1) {
      const cusum: Cusum = { up: 0, down: 0 };
      let length = 0;
      while (cusum.up <= h && cusum.down <= h) {
        stepCusum(cusum, chance.normal(shift, 1), 0.5);
        length += 1;
      }
      readings += length;
      squares += length * length;
    }
    const average = readings / runs;
    const standardError = Math.sqrt((squares / runs - average * average) / runs);
    // Published to three figures: half a unit of the last, beside four standard errors of the simulation.
    expect(Math.abs(average - expected)).toBeLessThan(4 * standardError + 0.005 * expected);
  });
});
