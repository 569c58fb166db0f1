import { describe, expect, test } from 'vitest';
import { isNone } from '../../../../../src/shared/basics/result.ts';
import { inHundred, millimetres } from '../../../../../src/shared/axle/plan/words.ts';
import type { PlanAnswer } from '../../../../../src/shared/axle/plan/answer.ts';
import { asked, edges, mark, planned, setWith, trial } from './scenes.ts';

const high = mark({ crown: 0.25, height: 0.5, edges: edges({ crown: 'hard' }) });
const low = mark({ crown: -0.25, height: 0.5, edges: edges({ root: 'hard' }) });
const both = (one: typeof high) => [trial({ pattern: { drive: one, coast: one } })];
const scene = (of: typeof high, depth: 'under-head' | 'behind-head-cup' | 'under-cage') =>
  planned(asked({ trials: both(of), places: { depth } }));

const [tooHigh, tooLow] = [scene(high, 'under-head'), scene(low, 'under-head')];
const said = ({ reasons }: PlanAnswer): string => reasons.join(' ');

describe('why the pinion moves', () => {
  test('is the edge the mark runs off, with the way and what is done to the shim', () => {
    expect(tooHigh.reasons[0]).toMatch(
      /runs off at the crown, so the pinion stands too far out: the pinion goes deeper/u,
    );
    expect(tooHigh.reasons[0]).toContain('(thicker shim under the pinion head)');
    expect(tooLow.reasons[0]).toMatch(/runs off at the root, so the pinion stands too deep: the pinion comes out/u);
    expect(tooLow.reasons[0]).toContain('(thinner shim under the pinion head)');
  });

  test('names the amount that is answered', () => {
    for (const answer of [tooHigh, tooLow])
      expect(answer.reasons[0]).toContain(` by ${millimetres(answer.pinionOut_mm)} (`);
  });

  test('follows where the shim sits: under the cage a thicker one brings the pinion out', () => {
    expect(said(scene(low, 'under-cage'))).toContain('(thicker shim under the pinion cage)');
    expect(said(scene(high, 'behind-head-cup'))).toContain('(thicker shim behind the head bearing cup)');
    expect(said(planned(asked({ trials: both(low) })))).not.toMatch(/shim (?:under|behind)/u);
  });

  test('a mark that only sits low, clear of every edge, is said to sit low', () => {
    const sits = mark({ crown: -0.2, height: 0.4 });
    expect(planned(asked({ trials: both(sits) })).reasons[0]).toMatch(/sits low, so the pinion stands too deep/u);
    const sitsHigh = mark({ crown: 0.2, height: 0.4 });
    expect(planned(asked({ trials: both(sitsHigh) })).reasons[0]).toMatch(/sits high.*too far out/u);
  });
});

describe('why the ring gear moves', () => {
  const wide = trial({ backlash: { mean_mm: 0.5, min_mm: 0.49, max_mm: 0.51, U95_mm: 0.006 } });
  const tight = trial({ backlash: { mean_mm: 0.1, min_mm: 0.09, max_mm: 0.11, U95_mm: 0.006 } });

  test('is the backlash where that does not fit its window, with the way and what is expected', () => {
    const closer = planned(asked({ trials: [wide] }));
    expect(said(closer)).toMatch(
      /Backlash of 0\.50 mm does not fit its window of 0\.20 to 0\.30 mm: the ring gear moves \d\.\d+ mm closer, about 0\.\d+ mm expected/u,
    );
    const away = planned(asked({ trials: [tight] }));
    expect(said(away)).toMatch(/Backlash of 0\.10 mm does not fit.*moves \d\.\d+ mm away/u);
  });

  test('is the pinion’s share where the backlash is inside and stays', () => {
    expect(said(tooLow)).toMatch(
      /Backlash is inside its window and stays: the ring gear moves .* closer only to make up/u,
    );
    expect(said(tooHigh)).toMatch(/stays: the ring gear moves .* away only to make up/u);
  });

  test('is room where the gears bind', () => {
    const bound = trial({ backlash: { mean_mm: 0, min_mm: 0, max_mm: 0 } });
    expect(said(planned(asked({ trials: [bound] })))).toMatch(/bind/u);
  });
});

describe('along the face', () => {
  const atToe = (cut: 'face-milled' | 'not-known') => {
    const drive = mark({ heel: -0.25, crown: -0.26, height: 0.48, edges: edges({ toe: 'hard', root: 'hard' }) });
    const coast = mark({ heel: 0.05, crown: -0.2, edges: edges({ root: 'hard' }) });
    return planned(asked({ set: setWith(cut), trials: [trial({ pattern: { drive, coast } })] }));
  };

  test('nothing is said while the cut is not known', () => {
    expect(said(atToe('not-known'))).not.toMatch(/Along the face/u);
    expect(said(atToe('face-milled'))).toMatch(/Along the face the drive mark reaches the toe/u);
  });

  test('a mark in its place is no reason', () => {
    expect(said(tooLow)).not.toMatch(/Along the face/u);
  });
});

describe('the chance', () => {
  test('is said in fives as it is answered, with what it is where the axle stands only where that is worth a word', () => {
    for (const answer of [tooHigh, tooLow]) {
      if (isNone(answer.chance)) throw new Error('no chance');
      const told = answer.reasons.find((one) => one.startsWith('Of axles that would have shown'));
      expect(told).toContain(`about ${inHundred(answer.chance)} are right there`);
      // Runs off an edge on both flanks: it is hardly right where it stands.
      expect(told).not.toContain('where it stands');
    }
  });

  test('of a mark that is only a little off is told beside the one where the axle stands', () => {
    const little = mark({ crown: -0.13, height: 0.5 });
    const answer = planned(asked({ trials: both(little) }));
    const told = answer.reasons.find((one) => one.startsWith('Of axles that would have shown')) ?? '';
    expect(answer.decision === 'leave' || /where it stands|one trial more/u.test(told)).toBe(true);
  });

  test.each([
    [0.01, '5 of 100'],
    [0.52, '50 of 100'],
    [0.53, '55 of 100'],
    [0.999, '95 of 100'],
  ])('%d is %s: chances are told in fives, and none is certain', (chance, words) => {
    expect(inHundred(chance)).toBe(words);
  });
});
