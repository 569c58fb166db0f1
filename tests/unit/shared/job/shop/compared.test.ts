import { describe, expect, it } from 'vitest';
import { readNotebook } from '../../../../../src/shared/job/records/build.ts';
import { compared } from '../../../../../src/shared/job/shop/compared.ts';
import { type Month, together, trialsEach } from '../../../../../src/shared/job/shop/overTime.ts';
import { notebookOf, twoTrials } from '../../../../support/records/finished.ts';

const build = (id: string, entries: number) => {
  const { entries: all } = notebookOf(id, {}, ...twoTrials());
  return readNotebook(id, all.slice(0, entries));
};

describe('two builds side by side', () => {
  it('have each assembly once, with everything measured in either', () => {
    const parts = compared(build('a', 11), build('b', 6));
    expect(parts.map(({ name }) => name)).toEqual(['Trial 1', 'Trial 2']);
    const [first, second] = parts;
    expect(first?.checks.map(({ check, one, other }) => [check, one !== undefined, other !== undefined])).toEqual([
      ['backlash', true, true],
      ['mark', true, false],
    ]);
    expect(first?.packs[0]).toMatchObject({
      place: 'pinion-depth',
      one: { pack: { value: 1.1 } },
      other: { pack: { value: 1.1 } },
    });
    expect(second?.assemblies.other).toBeUndefined();
  });

  it('are the other way round where they are named the other way round', () => {
    const [a, b] = [build('a', 11), build('b', 6)];
    const turned = compared(b, a).map(({ checks, ...part }) => ({
      name: part.name,
      checks: checks.map(({ check, one, other }) => ({ check, one: other, other: one })),
    }));
    expect(turned).toEqual(compared(a, b).map(({ name, checks }) => ({ name, checks })));
  });

  it('are nothing where nothing was assembled', () => {
    expect(compared(build('a', 1), build('b', 2))).toEqual([]);
  });
});

describe('months', () => {
  const month = (name: string, right: number, trials: number): Month => ({
    month: name,
    builds: 5,
    right,
    trials,
    changed: 2,
    rightAfterOne: 1,
  });

  it('are summed, and tell trials of those builds alone that came right', () => {
    const all = together([month('2026-01', 2, 5), month('2026-02', 2, 3)]);
    expect(all).toEqual({ builds: 10, right: 4, trials: 8, changed: 4, rightAfterOne: 2 });
    expect(trialsEach(all)).toBe(2);
    expect(trialsEach(together([]))).toBeUndefined();
  });
});
