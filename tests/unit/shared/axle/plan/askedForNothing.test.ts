import { expect, test } from 'vitest';
import { choose } from '../../../../../src/shared/axle/plan/decide.ts';
import { insightFrom } from '../../../../../src/shared/axle/plan/insight.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { matrixRows } from '../../../../performance/plan/matrixRows.ts';

// Rows of the matrix that once pulled the pinion by 0.025 or 0.05 mm for a chance no better than where it stood.
const odd = [
  'used, face-hobbed, drive convex: high and heel, hard',
  'used, face-hobbed, drive concave: heel, hard',
  'used, face-hobbed, drive concave: heel, feathered',
  'used, face-milled, drive convex: heel, feathered',
  'used, not-known, drive convex: drive high, coast low',
];

test.each(odd)('nothing is asked for that promises no more than the present: %s', (words) => {
  const row = matrixRows().find(({ what }) => what.startsWith(words));
  if (row === undefined) throw new Error(`no row ${words}`);
  const sight = sightOf(row.input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  const { decision, chosen, here } = choose(insightFrom(row.input, sight.value), row.input);
  const price = chosen.place.pinionOut === here.place.pinionOut ? 0.03 : 0.1;
  const gains = [chosen.chance - here.chance, chosen.near - here.near, chosen.height - here.height];
  if (decision === 'change') expect(Math.max(...gains)).toBeGreaterThan(price);
  else expect(['leave', 'suspect']).toContain(decision);
  // No mark shows a pinion moved by less.
  const moved = Math.abs(chosen.place.pinionOut - here.place.pinionOut);
  expect(moved === 0 || moved > 0.03).toBe(true);
});
