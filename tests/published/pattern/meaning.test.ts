import { describe, expect, test } from 'vitest';
import { meaningOf } from '../../../src/shared/axle/mark/meaning.ts';
import { makeUpOf, markAt } from '../../unit/shared/axle/mark/marks.ts';

/**
 * What manuals say and agree on (texts read as stored excerpts):
 * pinion too far out → mark high, too near → low: TM 10-3930-671-24, TM 5-3810-306-34, TM 10-3930-660-34,
 * TM 10-3930-653-14&P. Ring gear away → mark to the heel, closer → to the toe: TM 10-3930-671-24, TM 5-3810-306-34,
 * TM 10-3930-660-34; pass or fail on the convex flank only, the concave one is disputed.
 */
const said = (heel: number, crown: number, driveFlank: 'convex' | 'concave' = 'convex') =>
  meaningOf({ seen: [{ drive: markAt(heel, crown), coast: markAt(0, crown) }] }, makeUpOf({ driveFlank }));

describe('height, after four manuals', () => {
  test.each(['convex', 'concave'] as const)('high means too far out, low too deep, drive on the %s flank', (flank) => {
    const [high] = said(0, 0.3, flank);
    expect(high).toMatchObject({ kind: 'height', standing: 'published' });
    expect(high?.text).toMatch(/too high.*pinion is too far out/u);
    expect(said(0, -0.3, flank)[0]?.text).toMatch(/too low.*pinion is too deep/u);
    expect(high?.sources).toEqual([
      'TM 10-3930-671-24',
      'TM 5-3810-306-34',
      'TM 10-3930-660-34',
      'TM 10-3930-653-14&P',
    ]);
  });
});

describe('ring gear on the convex flank, after three manuals', () => {
  const published = (heel: number, flank: 'convex' | 'concave') =>
    said(heel, 0, flank).filter((one) => /ring gear/u.test(one.text) && one.kind === 'along-face');

  test('a mark at the heel goes with a gear too far away, at the toe with one too close', () => {
    expect(published(0.3, 'convex')[0]).toMatchObject({ standing: 'published' });
    expect(published(0.3, 'convex')[0]?.text).toMatch(/heel.*too far away/u);
    expect(published(-0.4, 'convex')[0]?.text).toMatch(/toe.*too close/u);
  });

  test('on the concave flank the same words are given as disputed, not as a rule', () => {
    expect(published(0.3, 'concave')).toEqual([]);
    expect(said(0.3, 0, 'concave').some((one) => one.kind === 'sources-disagree' && /ring gear/u.test(one.text))).toBe(
      true,
    );
  });
});
