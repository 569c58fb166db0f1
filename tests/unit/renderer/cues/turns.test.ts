import { describe, expect, it } from 'vitest';
import { cueOf } from '../../../../src/renderer/cues/cueOf.ts';
import { mm, seconds } from '../../../../src/shared/basics/quantity.ts';
import { specSheet } from '../../../support/records/scenario.ts';

const turn = (turns: number) => ({ kind: 'turn', t: seconds(9), turns }) as const;
const torque = { basis: 'running', seal: 'in', bearings: 'new' } as const;

describe('cues by what is being measured', () => {
  it('end a runout with its whole turn, and count the turns of a torque', () => {
    expect(cueOf(turn(1), 'metric', undefined, { kind: 'runout', mode: 'continuous' })).toMatchObject({
      cue: 'done',
      words: 'One whole turn',
    });
    expect(cueOf(turn(3), 'metric', undefined, { kind: 'torque', basis: torque })).toMatchObject({
      cue: 'rock',
      words: '3 whole turns',
    });
  });

  it('call a station outside only against a limit of its own basis', () => {
    const measured = {
      value: mm(0.33),
      rocks: 4,
      sd: mm(0.001),
      u: mm(0.001),
      U95: mm(0.002),
      flags: [],
      parts: [],
      from_t: seconds(0),
      to_t: seconds(3),
    };
    const done = { kind: 'station-done', station: 1, t: seconds(3), measured } as const;
    const felt = (direction: 'along-rotation' | 'square-to-tooth') =>
      cueOf(done, 'metric', specSheet, { kind: 'backlash', nextBy: 'itself', basis: { direction, at: 'heel' } })?.cue;
    expect(felt('along-rotation')).toBe('outside');
    expect(felt('square-to-tooth')).toBe('done');
  });
});
