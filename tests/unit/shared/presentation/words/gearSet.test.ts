import { expect, it } from 'vitest';
import { gearSetWords } from '../../../../../src/shared/presentation/words/gearSet.ts';

it('names a size only where one is known', () => {
  const teeth = { pinionTeeth: 11, ringTeeth: 41 };
  expect(gearSetWords({ ...teeth, outerDiameter_mm: 8.5 * 25.4 }, 'inch')).toBe('11 and 41 teeth, ring gear 8.5 in');
  expect(gearSetWords(teeth, 'metric')).toBe('11 and 41 teeth');
});
