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
} from '../../../../../../src/renderer/screens/checks/mark/shape.ts';
import {
  blankMark,
  drawnOver,
  type MarkDraft,
  markDraftOf,
  readFrom,
  readMark,
  withPhotoRead,
  withSide,
} from '../../../../../../src/renderer/screens/checks/mark/draft.ts';
import { blankMade, madeDraftOf } from '../../../../../../src/renderer/screens/checks/mark/made.ts';
import { flankGeometry } from '../../../../../../src/shared/presentation/drawing/flankShape.ts';
import { markSchema } from '../../../../../../src/shared/axle/mark/mark.ts';
import type { Assembly } from '../../../../../../src/shared/job/records/build.ts';
import type { PhotoRead } from '../../../../../../src/shared/job/records/photo.ts';
import { markResultSchema } from '../../../../../../src/shared/job/records/markResult.ts';
import { isNone } from '../../../../../../src/shared/basics/result.ts';

const middle = freshMark({ heel: 0, crown: 0 });
const square: PhotoRead['corners'] = [
  [0, 10],
  [0, 0],
  [30, 0],
  [30, 10],
];
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

  const drawn: MarkDraft = {
    ...blankMark(trial),
    places: [{ drive: middle, coast: 'no-mark' }],
    judgement: 'change',
    note: ' ',
  };

  it('keeps with every mark how it was made, the bearings of the assembly among it', () => {
    const made = {
      compound: ' Yellow ',
      drag: { text: '12', unit: '[lbf_av].[in_i]' },
      turns: '3',
      film: blankMade.film,
    };
    const read = readMark({ ...drawn, made }, 'set-up');
    expect(read).toMatchObject({
      ok: true,
      value: { compound: 'Yellow', drive: { made: { turns: 3, bearings: 'set-up' } } },
    });
    const drive = read.ok && !isNone(read.value.drive) ? read.value.drive.made : undefined;
    // 12 lbf·in, the pound-force being 4.4482216152605 N and the inch 25.4 mm, both exactly.
    expect(drive?.drag_Nm).toBeCloseTo(1.3558, 4);
    if (read.ok) expect(madeDraftOf(read.value).turns).toBe('3');
    for (const turns of ['0', 'many', '-2'])
      expect(readMark({ ...drawn, made: { ...made, turns } }, 'set-up')).toMatchObject({
        errors: { mark: `"${turns}" is no number of turns.` },
      });
  });

  it('forgets the photo of a mark that was drawn over by hand, and keeps that of the other flank', () => {
    const read = { photo: 'a'.repeat(64), place: 0, corners: square, brushed: [], area: 0.3, warnings: [] };
    const two = withPhotoRead(withPhotoRead(drawn, middle, { ...read, flank: 'drive' }), middle, {
      ...read,
      flank: 'coast',
    });
    expect(readFrom(two, 0, 'drive')).toBeDefined();
    const over = drawnOver(withSide(two, 0, 'drive', middle), 0, 'drive');
    expect(readFrom(over, 0, 'drive')).toBeUndefined();
    // How sure the photo was says nothing of where a hand has put the mark.
    const sure = withSide(two, 0, 'drive', { ...middle, U95: { heel: 0.02, crown: 0.03 } });
    expect(drawnOver(sure, 0, 'drive').places[0]?.drive).toEqual(middle);
    expect(readFrom(over, 0, 'coast')).toBeDefined();
    const result = readMark(over, 'set-up');
    expect(result.ok && markResultSchema.safeParse(result.value).success).toBe(true);
    expect(result.ok ? markDraftOf(result.value).photos : []).toHaveLength(1);
  });

  it('names what is still missing, one thing at a time', () => {
    const draft = blankMark(trial);
    expect(readMark(draft, 'set-up')).toMatchObject({ errors: { mark: 'The drive flank is not drawn yet.' } });
    const half = withSide(draft, 0, 'drive', middle);
    expect(readMark(half, 'set-up')).toMatchObject({ errors: { mark: 'The coast flank is not drawn yet.' } });
    const both = withSide(half, 0, 'coast', 'no-mark');
    expect(readMark(both, 'set-up')).toMatchObject({ errors: { mark: 'Say what the mark asks for.' } });
    const third = withSide({ ...both, judgement: 'change' }, 2, 'coast', middle);
    expect(readMark(third, 'set-up')).toMatchObject({
      errors: { mark: 'The drive flank at place 2 is not drawn yet.' },
    });
  });

  it('keeps a flank without a mark as that, never as an empty mark', () => {
    const read = readMark(drawn, 'set-up');
    expect(read).toMatchObject({ ok: true, value: { coast: { none: 'no mark on this flank' }, judgement: 'change' } });
    expect(read.ok && 'note' in read.value).toBe(false);
  });

  it('asks for no decision before anything is loosened', () => {
    expect(blankMark({ phase: 'as-found' } as Assembly).judgement).toBe('recorded');
  });
});
