import { describe, expect, test } from 'vitest';
import { trialSeenSchema } from '../../../../../src/shared/axle/plan/input.ts';
import { roundGear } from '../../../../../src/shared/axle/plan/roundGear.ts';
import { seatFirstAnswer } from '../../../../../src/shared/axle/plan/seatFirst.ts';
import { asked, edges, mark, trial } from './scenes.ts';

describe('several places round the gear', () => {
  test('one place stays as it was read', () => {
    const only = mark({ gearAngle_deg: 40 });
    expect(roundGear([only])).toBe(only);
  });

  test('places that agree are averaged, and what they scatter is added to the doubt', () => {
    const seen = roundGear([
      mark({ heel: -0.06, crown: 0.02 }),
      mark({ heel: -0.02, crown: 0.04 }),
      mark({ heel: -0.04, crown: 0.03 }),
    ]);
    expect(seen.heel).toBeCloseTo(-0.04, 9);
    expect(seen.crown).toBeCloseTo(0.03, 9);
    // Standard deviation of the three heels is 0.02: 2 × 0.02/√3 on top of the 0.06 of one reading.
    expect(seen.U95?.heel).toBeCloseTo(Math.hypot(0.06, 0.04 / Math.sqrt(3)), 9);
    expect(seen.wanders).toBeUndefined();
  });

  test('an edge counts as the middle place meets it', () => {
    const hard = mark({ edges: edges({ toe: 'hard' }) });
    const soft = mark({ edges: edges({ toe: 'feathered' }) });
    expect(roundGear([hard, soft, mark()]).edges.toe).toBe('feathered');
    expect(roundGear([soft, hard]).edges.toe).toBe('hard');
  });

  test('places farther apart than two readings can be wander, and the ring gear’s seat comes first', () => {
    const drive = roundGear([mark({ heel: -0.1 }), mark({ heel: 0.15 }), mark({ heel: -0.05 })]);
    expect(drive.wanders?.heel).toBeCloseTo(0.25, 9);
    const answer = seatFirstAnswer(asked({ trials: [trial({ pattern: { drive, coast: mark() } })] }));
    expect(answer?.decision).toBe('check');
    expect(answer?.look[0]).toContain('ring gear’s seat first');
    expect(answer?.reasons[0]).toContain('wanders by 25 in 100 of the face');
    expect(seatFirstAnswer(asked())).toBeUndefined();
  });

  test('cross the boundary as a list', () => {
    const { drive, coast } = { drive: [mark({ crown: 0.02 }), mark({ crown: 0.04 })], coast: mark() };
    const read = trialSeenSchema.parse({ ...trial(), pattern: { drive, coast } });
    expect(read.pattern.drive.crown).toBeCloseTo(0.03, 9);
    expect(trialSeenSchema.safeParse({ ...trial(), pattern: { drive: [], coast } }).success).toBe(false);
  });
});
