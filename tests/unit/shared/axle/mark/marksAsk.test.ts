import fc from 'fast-check';
import { expect, it } from 'vitest';
import { marksAsk } from '../../../../../src/shared/axle/mark/marksAsk.ts';
import { edgeNames } from '../../../../../src/shared/axle/mark/mark.ts';
import { markAt } from './marks.ts';

const place = fc.double({ min: -0.5, max: 0.5, noNaN: true });
const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;

it('says of a new set’s whole mark what the boxes of the plan say, and nothing of the place where it ran', () => {
  fc.assert(
    fc.property(place, place, (heel, crown) => {
      const right = heel >= -0.22 && heel <= 0.12 && Math.abs(crown) <= 0.12;
      expect(marksAsk({ drive: markAt(heel, crown) }, markAt(0.4, 0.4), 'new')).toBe(right ? 'nothing' : 'the-plan');
    }),
  );
});

it('never lets a new set’s mark that ends in a hard line, or is cut off in height, pass for right', () => {
  for (const edge of edgeNames)
    expect(marksAsk({ drive: markAt(0, 0, { edges: { ...clear, [edge]: 'hard' } }) }, undefined, 'new')).toBe(
      'the-plan',
    );
  for (const [edge, asks] of [
    ['root', 'the-plan'],
    ['crown', 'the-plan'],
    ['toe', 'nothing'],
  ] as const)
    expect(marksAsk({ drive: markAt(0, 0, { edges: { ...clear, [edge]: 'feathered' } }) }, undefined, 'new')).toBe(
      asks,
    );
});

it('holds a used set’s mark against its own, wherever on the tooth that lies', () => {
  const own = markAt(0.2, 0.3);
  expect(marksAsk({ drive: markAt(0.25, 0.25) }, own, 'used')).toBe('nothing');
  expect(marksAsk({ drive: markAt(0, 0) }, own, 'used')).toBe('the-plan');
  expect(marksAsk({ drive: markAt(0, 0) }, undefined, 'used')).toBe('the-plan');
});

it('asks for nothing before there is a mark, and for another painting where it tells nothing', () => {
  expect(marksAsk({ coast: markAt(0, 0) }, undefined, 'new')).toBe('a-mark');
  expect(marksAsk({ drive: markAt(0, 0, { length: 0.1, height: 0.1 }) }, undefined, 'new')).toBe('painting');
});
