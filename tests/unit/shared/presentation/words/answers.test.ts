import { describe, expect, it } from 'vitest';
import { answersOf, checkBrief } from '../../../../../src/shared/presentation/words/answers.ts';
import { checks } from '../../../../../src/shared/job/checks/checks.ts';

const confirmed = (yes: boolean) => ({ kind: 'confirmed', yes }) as const;

describe('what somebody found, in words', () => {
  it('says of play whether there is any, never a bare yes or no', () => {
    expect(checkBrief('case-tight', confirmed(true), 'metric')).toBe('no play felt');
    expect(checkBrief('case-tight', confirmed(false), 'metric')).toBe('it has play');
  });

  it('keeps what was counted beside it', () => {
    expect(checkBrief('bolts-locked', { ...confirmed(true), counted: 10 }, 'metric')).toBe('all are locked, 10 bolts');
  });

  it('has two answers that differ for everything that is looked at or felt', () => {
    for (const { id } of checks.filter(({ method }) => method === 'confirm' || method === 'case-play')) {
      const { yes, no } = answersOf(id);
      expect(yes, id).not.toBe('Yes, I have seen it');
      expect(no, id).not.toBe(yes);
    }
  });
});
