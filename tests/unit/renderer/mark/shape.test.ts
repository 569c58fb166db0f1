import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  endDragged,
  endOf,
  freshMark,
  heightened,
  lengthened,
  moved,
  recalled,
  slanted,
  topDragged,
  topOf,
} from '../../../../src/renderer/screens/mark/shape.ts';
import { blankMark, readMark } from '../../../../src/renderer/screens/mark/draft.ts';
import { flankGeometry } from '../../../../src/shared/drawing/flankShape.ts';
import { markSchema } from '../../../../src/shared/pattern/mark.ts';
import type { Assembly } from '../../../../src/shared/records/build.ts';

const middle = freshMark({ heel: 0, crown: 0 });
const fraction = fc.double({ min: -1, max: 1, noNaN: true });
const geometry = flankGeometry('convex', 'face-milled', 'toe-left', {
  centre: { x: 300, y: 200 },
  length: 340,
  height: 120,
});

describe('a mark shaped by hand', () => {
  it('is a mark of the record, wherever it is dragged', () => {
    fc.assert(
      fc.property(fraction, fraction, fraction, fraction, (heel, crown, along, up) => {
        const dragged = topDragged(endDragged(moved(middle, { heel, crown }), { heel: along, crown: up }, geometry), {
          heel,
          crown: up,
        });
        expect(markSchema.safeParse(dragged).success).toBe(true);
      }),
    );
  });

  it('is feathered at an edge it reaches and clear of the others', () => {
    expect(middle.edges).toEqual({ toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' });
    expect(moved(middle, { heel: -0.4, crown: -0.3 }).edges).toEqual({
      toe: 'feathered',
      heel: 'clear',
      crown: 'clear',
      root: 'feathered',
    });
    expect(lengthened(middle, 1).edges).toMatchObject({ toe: 'feathered', heel: 'feathered' });
  });

  it('keeps a hard edge hard while it reaches it, and lets it go when it leaves', () => {
    const hard = recalled(moved(middle, { heel: 0.4, crown: 0 }), 'heel');
    expect(hard.edges.heel).toBe('hard');
    expect(moved(hard, { heel: 0.35, crown: 0.1 }).edges.heel).toBe('hard');
    expect(moved(hard, { heel: 0, crown: 0 }).edges.heel).toBe('clear');
  });

  it('stays as it is when a handle is put where it already stands', () => {
    fc.assert(
      fc.property(fc.integer({ min: -40, max: 40 }), fc.integer({ min: 10, max: 90 }), (slant, percent) => {
        const mark = slanted(lengthened(middle, percent / 100), slant);
        const again = endDragged(mark, endOf(mark, geometry), geometry);
        expect(again.slant_deg).toBe(mark.slant_deg);
        expect(again.length).toBeCloseTo(mark.length, 6);
        expect(topDragged(mark, topOf(mark)).height).toBeCloseTo(mark.height, 6);
      }),
    );
  });

  it('is never drawn away to nothing', () => {
    expect(lengthened(middle, -1).length).toBeGreaterThan(0);
    expect(heightened(middle, 0).height).toBeGreaterThan(0);
  });
});

describe('the answer about a mark', () => {
  const trial = { phase: 'trial' } as Assembly;

  it('names what is still missing, one thing at a time', () => {
    const draft = blankMark(trial);
    expect(readMark(draft)).toMatchObject({ problem: { field: 'drive' } });
    expect(readMark({ ...draft, drive: middle })).toMatchObject({ problem: { field: 'coast' } });
    expect(readMark({ ...draft, drive: middle, coast: 'no-mark' })).toMatchObject({ problem: { field: 'judgement' } });
  });

  it('keeps a flank without a mark as that, never as an empty mark', () => {
    const read = readMark({ drive: middle, coast: 'no-mark', judgement: 'change', note: ' ' });
    expect(read).toMatchObject({ ok: true, value: { coast: { none: 'no mark on this flank' }, judgement: 'change' } });
    expect(read.ok && 'note' in read.value).toBe(false);
  });

  it('asks for no decision before anything is loosened', () => {
    expect(blankMark({ phase: 'as-found' } as Assembly).judgement).toBe('recorded');
  });
});
