import type { Mark } from '../../../../../src/shared/axle/mark/mark.ts';
import type { MakeUp } from '../../../../../src/shared/axle/makeUp.ts';
import { makeUp } from '../../../../support/records/scenario.ts';

const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;

/** A mark of common size, clear of all edges unless said otherwise. */
export const markAt = (heel: number, crown: number, other: Partial<Mark> = {}): Mark => ({
  heel,
  crown,
  length: 0.5,
  height: 0.5,
  slant_deg: 0,
  edges: clear,
  U95: { heel: 0.03, crown: 0.04 },
  ...other,
});

/** An invented axle, most common in all it can be. */
export const makeUpOf = (other: Partial<MakeUp> = {}): MakeUp => ({
  ...makeUp,
  pinionTeeth: 12,
  ringTeeth: 43,
  ...other,
});
