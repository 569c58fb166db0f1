import { describe, expect, test } from 'vitest';
import { asked, edges, mark, planned, setWith, trial } from './scenes.ts';

const alone = (drive: ReturnType<typeof mark>, mean_mm = 0.25) =>
  trial({
    backlash: { mean_mm, min_mm: mean_mm - 0.01, max_mm: mean_mm + 0.01, U95_mm: 0.006 },
    pattern: { drive, coast: mark() },
  });
const belongs = /where it belongs and/u;

describe('a hard edge is never where it belongs', () => {
  test.each(['toe', 'heel', 'crown', 'root'] as const)('%s, cut known or not', (edge) => {
    for (const cut of ['face-milled', 'face-hobbed', 'not-known'] as const) {
      const drive = mark({ heel: 0, edges: edges({ [edge]: 'hard' }) });
      const answer = planned(asked({ set: setWith(cut), trials: [alone(drive)] }));
      expect(answer.decision).not.toBe('leave');
      expect(answer.reasons.join(' ')).not.toMatch(belongs);
    }
  });

  test('cut not known, hard at the heel of the convex flank: the published rule, inside the window, at most an even chance', () => {
    const drive = mark({ heel: 0.28, length: 0.42, edges: edges({ heel: 'hard' }) });
    const answer = planned(asked({ set: setWith('not-known'), trials: [alone(drive)] }));
    expect(answer.decision).toBe('change');
    expect(answer.pinionOut_mm).toBe(0);
    expect(answer.ringAway_mm).toBeLessThan(0);
    expect(answer.chance).toBeLessThanOrEqual(0.5);
    expect(answer.reasons[0]).toMatch(
      /at its height, but along the face it is hard at the heel.*too far away.*published.*moves 0\.\d+ mm closer/u,
    );
    expect(answer.warnings.join(' ')).not.toContain('nothing is said about the place along the face');
    const toe = mark({ heel: -0.28, length: 0.42, edges: edges({ toe: 'hard' }) });
    expect(planned(asked({ set: setWith('not-known'), trials: [alone(toe)] })).ringAway_mm).toBeGreaterThan(0);
  });

  test('no room left in the window: painted again and looked at, and the cut is asked for', () => {
    const drive = mark({ heel: 0.28, length: 0.42, edges: edges({ heel: 'hard' }) });
    const limits: { backlash_mm: [number, number] } = { backlash_mm: [0.225, 0.275] };
    const answer = planned(asked({ set: setWith('not-known'), limits, trials: [alone(drive)] }));
    expect(answer.decision).toBe('repaint');
    expect(answer.look.join(' ')).toMatch(/burr.*thinner.*Tell the cut/u);
  });

  test('from toe to heel nothing is said to be in its place', () => {
    const drive = mark({ heel: 0, length: 1, edges: edges({ toe: 'feathered', heel: 'feathered' }) });
    expect(planned(asked({ trials: [alone(drive)] })).reasons.join(' ')).not.toMatch(belongs);
  });
});

describe('words of a used set', () => {
  const own = { drive: mark({ heel: 0.05, crown: 0.18 }), coast: mark({ heel: 0.05, crown: 0.16 }) };
  const target = { kind: 'used-set', ...own } as const;

  test('own mark high, seen lower but above the middle: it lies lower than where it ran, and the pinion comes out', () => {
    const pattern = { drive: mark({ heel: 0.02, crown: 0.05 }), coast: mark({ heel: 0.06, crown: 0.03 }) };
    const answer = planned(asked({ target, trials: [trial({ pattern })] }));
    expect(answer.decision).toBe('change');
    expect(answer.pinionOut_mm).toBeGreaterThan(0);
    expect(answer.reasons[0]).toMatch(
      /lies lower than where it ran \(\+0\.05 against \+0\.18 in height\).*deeper than it did: the pinion comes out/u,
    );
  });

  test('a hard edge it always had is not held against it, a new one is told', () => {
    const rooted = {
      drive: mark({ crown: -0.25, height: 0.48, edges: edges({ root: 'hard' }) }),
      coast: mark({ crown: -0.2 }),
    };
    const ran = { kind: 'used-set', ...rooted } as const;
    const back = planned(asked({ target: ran, trials: [trial({ pattern: rooted })] }));
    expect(back.decision).toBe('leave');
    const heeled = { ...rooted, drive: { ...rooted.drive, edges: edges({ root: 'hard', heel: 'hard' }) } };
    const other = planned(asked({ target: ran, trials: [trial({ pattern: heeled })] }));
    expect([...other.reasons, ...other.warnings].join(' ')).toMatch(/hard line at the heel/u);
  });
});

test.each([
  ['under-cage', /thicker shim under the pinion cage/u],
  ['under-head', /thinner shim under the pinion head/u],
  ['behind-head-cup', /thinner shim behind the head bearing cup/u],
] as const)('the shim is named where it sits: %s', (depth, words) => {
  const low = trial({ pattern: { drive: mark({ crown: -0.2 }), coast: mark({ crown: -0.2 }) } });
  const answer = planned(asked({ trials: [low], places: { depth } }));
  expect(answer.pinionOut_mm).toBeGreaterThan(0);
  expect(answer.reasons[0]).toMatch(words);
});
