import { expect, it } from 'vitest';
import { turnedRound } from '../../../../src/shared/axle/makeUpChange.ts';
import { makeUp } from '../../../support/records/scenario.ts';

it('names what readings rest on and nothing else, and nothing for a first description', () => {
  expect(turnedRound(undefined, makeUp)).toEqual([]);
  expect(turnedRound(makeUp, { ...makeUp, outerDiameter_mm: 230, ringBolts: 10 })).toEqual([]);
  expect(
    turnedRound(makeUp, { ...makeUp, caseAdjustment: 'threaded-adjusters', depthShimPlace: 'behind-head-cup' }),
  ).toEqual(['how the case is moved sideways', 'where the depth shim sits']);
});
