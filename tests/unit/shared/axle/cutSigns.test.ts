import { describe, expect, it } from 'vitest';
import { cutFrom } from '../../../../src/shared/axle/cutSigns.ts';

const nothing = { height: 'not-known', slot: 'not-known', mark: 'not-known' } as const;

describe('the cut, told from what can be seen', () => {
  it('goes by tooth height, and by the slot where that is told', () => {
    expect(cutFrom({ ...nothing, height: 'taller-at-heel' }).cut).toBe('face-milled');
    expect(cutFrom({ ...nothing, height: 'equal' }).cut).toBe('face-hobbed');
    expect(cutFrom({ ...nothing, slot: 'equal' }).cut).toBe('face-milled');
    expect(cutFrom({ height: 'equal', slot: 'wider-at-heel', mark: 'slanted' }).cut).toBe('face-hobbed');
  });

  it('stays at not known when nothing was told, when only the mark was, and when signs contradict each other', () => {
    expect(cutFrom(nothing).cut).toBe('not-known');
    expect(cutFrom({ ...nothing, mark: 'slanted' }).cut).toBe('not-known');
    expect(cutFrom({ height: 'equal', slot: 'equal', mark: 'not-known' })).toMatchObject({
      cut: 'not-known',
      why: expect.stringContaining('different things'),
    });
  });

  it('says when the mark does not fit', () => {
    expect(cutFrom({ height: 'taller-at-heel', slot: 'equal', mark: 'slanted' }).why).toContain('does not fit');
    expect(cutFrom({ height: 'equal', slot: 'not-known', mark: 'slanted' }).why).not.toContain('does not fit');
  });
});
