import { describe, expect, it } from 'vitest';
import { heldRows } from '../../../../src/main/journal/heldRows.ts';

const clock = { monotonic_s: () => 5, wall_ms: () => 5000 };
const press = { kind: 'pedal', t: 1, at: 1, note: 'next' } as const;
const seqs = (rows: readonly { readonly seq: number }[]): readonly number[] => rows.map(({ seq }) => seq);

describe('rows that wait for the disk', () => {
  it('go on from the last number, and are all there while some are under way', () => {
    const held = heldRows(clock, 10);
    held.add(press);
    held.add(press);
    expect(seqs(held.setOut(''))).toEqual([11, 12]);
    held.add(press);
    expect(seqs(held.told(''))).toEqual([13]);
    expect(seqs(held.rows())).toEqual([11, 12, 13]);
    expect(held.arrived()).toBe(12);
    expect(seqs(held.rows())).toEqual([13]);
    expect(held.last()).toBe(13);
  });

  it('wait again in their order where they were refused', () => {
    const held = heldRows(clock, 0);
    held.add(press);
    held.setOut('');
    held.add(press);
    held.cameBack();
    expect(seqs(held.told(''))).toEqual([1, 2]);
    held.taken();
    expect(held.rows()).toEqual([]);
  });

  it('are counted where there is no room for them, whether they wait or are under way', () => {
    const held = heldRows(clock, 0);
    const added = Array.from({ length: 250_000 }, () => held.add(press));
    expect(added.every(Boolean)).toBe(true);
    held.setOut('');
    expect(held.add(press)).toBe(false);
    expect(held.add(press)).toBe(false);
    expect(held.lost()).toBe(2);
    expect(held.told('too full')).toEqual([{ kind: 'lost', t: 5, at: 5000, seq: 250_001, note: '2 rows: too full' }]);
    expect(held.arrived()).toBe(250_000);
    expect(held.add(press)).toBe(true);
    expect(held.last()).toBe(250_002);
  });
});
