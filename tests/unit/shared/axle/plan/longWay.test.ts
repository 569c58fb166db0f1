import { expect, test } from 'vitest';
import { choose } from '../../../../../src/shared/axle/plan/decide.ts';
import { doubtful } from '../../../../../src/shared/axle/plan/fit.ts';
import { insightFrom } from '../../../../../src/shared/axle/plan/insight.ts';
import { plan } from '../../../../../src/shared/axle/plan/plan.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { firstOrderSubject } from '../../../../performance/plan/firstOrder.ts';
import { matrixRows } from '../../../../performance/plan/matrixRows.ts';
import { byPlan } from '../../../../performance/plan/ways.ts';
import { worlds } from '../../../../performance/plan/worlds.ts';

test('no long way on an explanation that hardly fits: a place whose window is likelier lost than kept is no plan', () => {
  // It once asked for the pinion 0.825 mm out, for 10 in 100.
  const row = matrixRows().find(({ what }) =>
    what.startsWith('used, face-hobbed, drive concave: coast hard at the root'),
  );
  if (row === undefined) throw new Error('no such row');
  const sight = sightOf(row.input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  const insight = insightFrom(row.input, sight.value);
  const { chosen } = choose(insight, row.input);
  expect(insight.misfit).toBeGreaterThan(doubtful);
  expect(chosen.inWindow).toBeGreaterThan(0.5);
  expect(Math.abs(chosen.place.pinionOut)).toBeLessThan(0.3);
});

const answerTo = (words: string) => {
  const row = matrixRows().find(({ what }) => what.startsWith(words));
  const answer = row && plan(row.input);
  if (answer === undefined || !answer.ok) throw new Error(`no answer to ${words}`);
  return answer.value;
};

test('where half of the axles that fit have a right place, the marks are looked at and the set is not blamed', () => {
  const { decision, reasons } = answerTo('used, face-hobbed, drive concave: coast hard at the root');
  expect(decision).toBe('suspect');
  expect(reasons.join(' ')).toContain('which flank was drawn as which');
  expect(reasons.join(' ')).not.toContain('that points to the gear set');
});

test('marks that end hard at opposite ends: bores and seats are looked at before anything comes apart', () => {
  const crossed = answerTo('new, face-hobbed, drive concave: crossed');
  expect(crossed.decision).toBe('change');
  expect(crossed.warnings.join(' ')).toContain('whether the bores are in line');
  const straight = answerTo('new, face-hobbed, drive concave: heel, hard');
  expect(straight.warnings.join(' ')).not.toContain('bores');
});

// It was left at 30 in 100, because nobody knew the cut; cut either way the pinion out by a tenth is right.
test('cut not known: the pinion moves for what it does on gears cut either way', () => {
  const { decision, pinionOut_mm, chance } = answerTo('new, not-known, drive convex: coast hard at the root');
  expect(decision).toBe('change');
  expect(pinionOut_mm).toBeGreaterThan(0.05);
  expect(pinionOut_mm).toBeLessThan(0.2);
  expect(chance).toBeGreaterThan(0.6);
});

// Axles of the first-order truth of which nobody told the cut. Their drive marks are read at −0.14 and −0.12: the height
// was held to be right, only the ring gear moved, and half of the axles that fit stayed too low.
test.each([740_002, 740_004])(
  'cut not known, height at the very end of its stretch: the pinion comes out (%d)',
  (seed) => {
    const world = worlds['counts and diameter'];
    const subject = world && firstOrderSubject(world, seed);
    if (subject === undefined) throw new Error('no such axle');
    const nowhere = { pinionOut: 0, ringAway: 0 };
    const trial = subject.tryAt(nowhere, 0);
    expect(trial.pattern.drive.crown).toBeLessThan(-0.1);
    const { place } = byPlan([])(subject, [trial]);
    expect(place.pinionOut).toBeGreaterThan(0.03);
  },
);
