import { expect, it } from 'vitest';
import { roadTestText } from '../../../../../src/shared/presentation/words/roadTest.ts';

it('says how far it was driven, what was heard and under which load', () => {
  const quiet = { distance: '25 km', heard: 'nothing', when: ['pulling'], note: '' } as const;
  expect(roadTestText(quiet)).toBe('After 25 km: nothing heard.');
  expect(roadTestText({ ...quiet, heard: 'other', when: ['coasting', 'turning'], note: ' Warm, not hot. ' })).toBe(
    'After 25 km: another noise, when coasting, in turns. Warm, not hot.',
  );
});
