import { describe, expect, test } from 'vitest';
import type { Mark } from '../../../../../src/shared/axle/mark/mark.ts';
import { untelling } from '../../../../../src/shared/axle/mark/untelling.ts';
import { asked, edges, mark, planned, trial } from './scenes.ts';

const allRound = (contact: 'feathered' | 'hard'): Mark =>
  mark({
    heel: 0,
    length: 1,
    height: 1,
    edges: edges({ toe: contact, heel: contact, crown: contact, root: contact }),
  });

const untold: readonly { readonly what: string; readonly drive: Mark; readonly says: RegExp; readonly look: RegExp }[] =
  [
    {
      what: 'edge to edge',
      drive: allRound('feathered'),
      says: /runs out at root, crown, toe and heel/u,
      look: /thinner/u,
    },
    {
      what: 'hard all round',
      drive: allRound('hard'),
      says: /ends in hard lines at root, crown, toe and heel/u,
      look: /thinner/u,
    },
    {
      what: 'thin line',
      drive: mark({ length: 0.7, height: 0.08 }),
      says: /only a thin line, 70 of 100 of the face and 8 of 100 of the height/u,
      look: /burr/u,
    },
    {
      what: 'dot',
      drive: mark({ length: 0.1, height: 0.12 }),
      says: /only a dot, 10 of 100 of the face/u,
      look: /More drag/u,
    },
    {
      what: 'nobody can read it',
      drive: mark({ U95: { heel: 0.25, crown: 0.25 } }),
      says: /only to within 25 of 100 of the flank/u,
      look: /Clean both gears of oil/u,
    },
  ];

describe('a mark that tells nothing', () => {
  test.each(untold)('$what: painted again, no shim, and told how', ({ drive, says, look }) => {
    const answer = planned(asked({ trials: [trial({ pattern: { drive, coast: mark() } })] }));
    expect(answer.decision).toBe('repaint');
    expect(answer.reasons[0]).toMatch(says);
    expect(answer.look[0]).toMatch(look);
    expect([answer.pinionOut_mm, answer.ringAway_mm]).toEqual([0, 0]);
    expect(answer.reasons.join(' ')).not.toContain('where it belongs');
  });

  test('is not one that an edge has cut thin: that still says where the middle is not', () => {
    expect(untelling(mark({ crown: -0.46, height: 0.08, edges: edges({ root: 'hard' }) }))).toBeUndefined();
    expect(untelling(mark({ heel: 0.46, length: 0.08, edges: edges({ heel: 'hard' }) }))).toBeUndefined();
    expect(untelling(mark())).toBeUndefined();
  });
});
