import { describe, expect, it } from 'vitest';
import {
  type BacklashDraft,
  blankBacklash,
  readBacklash,
  withStations,
} from '../../../../../../src/renderer/screens/checks/backlash/typedDraft.ts';
import { newTool } from '../../../../../../src/renderer/screens/checks/typed/tool.ts';

const tool = {
  ...newTool('dial', 'metric'),
  tool: 'Dial indicator',
  resolution: { text: '0.01', unit: 'mm' },
};
const heel = { direction: 'along-rotation', at: 'heel' } as const;
const blank = blankBacklash({ kind: 'backlash', basis: heel, stations: 4, nextBy: 'itself' }, tool, 'metric');
const typed = (stations: readonly string[], more: Partial<BacklashDraft> = {}) =>
  readBacklash({ ...blank, stations, ...more });

/** What is written down, as if the tool were new to the shop. */
function resultOf(read: ReturnType<typeof readBacklash>) {
  if (!read.ok) throw new Error(JSON.stringify(read.errors));
  return read.value.result(read.value.how);
}

describe('a backlash that is typed', () => {
  it('is one number a station, with a comma or a point, off a dial named once', () => {
    const read = typed(['0.21', '0,22', ' .23 ', '0.2']);
    expect(resultOf(read)).toMatchObject({
      kind: 'backlash',
      basis: heel,
      stations: [{ value_mm: 0.21 }, { value_mm: 0.22 }, { value_mm: 0.23 }, { value_mm: 0.2 }],
    });
    expect(read).toMatchObject({ value: { how: { kind: 'typed', tool: 'Dial indicator' } } });
  });

  it('is in the unit of the dial, and the doubt that of the scale of the tool it is kept with', () => {
    const read = typed(['0.008', '0.0085', '0.009', '0.008'], {
      unit: '[in_i]',
      tool: { ...tool, resolution: { text: '0.0005', unit: '[in_i]' } },
    });
    const result = resultOf(read);
    if (result.kind !== 'backlash') throw new Error('no backlash');
    expect(result.stations[0]?.value_mm).toBeCloseTo(0.2032, 9);
    expect(result.stations[0]?.parts).toEqual([{ name: 'resolution', u: expect.closeTo(0.0127 / Math.sqrt(6), 9) }]);
    const finer = { kind: 'typed', tool: 'Dial', resolution: { value: 0.001, unit: 'mm' } } as const;
    const known = read.ok ? read.value.result(finer) : undefined;
    expect(known).toMatchObject({
      stations: [{ parts: [{ u: expect.closeTo(0.001 / Math.sqrt(6), 9) }] }, {}, {}, {}],
    });
  });

  it('may leave a station empty, but not all of them', () => {
    expect(resultOf(typed(['0.21', '', '0.2', '0.2']))).toMatchObject({
      stations: [{ number: 1 }, { number: 2, value_mm: { none: 'not-measured' } }, { number: 3 }, { number: 4 }],
    });
    expect(typed(['', ' ', '', ''])).toMatchObject({ ok: false, errors: { stations: { 1: expect.any(String) } } });
  });

  it('asks about the point and the unit where no gear has so much, at the station it is about', () => {
    const read = typed(['0.21', '21', '0.2x', '0.2']);
    expect(read).toMatchObject({
      ok: false,
      errors: {
        stations: {
          2: 'More than any axle has. Look at the point and the unit beside it.',
          3: expect.stringContaining('Station 3'),
        },
      },
    });
    expect(typed(['-0.2', '', '', ''])).toMatchObject({ errors: { stations: { 1: expect.stringContaining('sign') } } });
  });

  it('wants the tool and, where it is felt at a radius, the radius', () => {
    const read = typed(['0.2', '0.2', '0.2', '0.2'], { place: 'radius', tool: newTool('dial', 'metric') });
    expect(read).toMatchObject({ ok: false, errors: { radius: expect.any(String), tool: expect.any(String) } });
    expect(resultOf(typed(['0.2', '', '', ''], { place: 'radius', radius: '98,5' }))).toMatchObject({
      basis: { direction: 'along-rotation', at: { radius_mm: 98.5 } },
    });
  });

  it('keeps what is typed when there are more stations or fewer', () => {
    const six = withStations({ ...blank, stations: ['0.2', '0.21', '', ''] }, 6);
    expect(six).toEqual(['0.2', '0.21', '', '', '', '']);
    expect(withStations({ ...blank, stations: six }, 1)).toEqual(['0.2']);
  });

  it('begins as felt last, at a radius too', () => {
    const at = { direction: 'square-to-tooth', at: { radius_mm: 90 } } as const;
    const draft = blankBacklash({ kind: 'backlash', basis: at, stations: 6, nextBy: 'itself' }, tool, 'inch');
    expect(draft).toMatchObject({ direction: 'square-to-tooth', place: 'radius', radius: '90', unit: '[in_i]' });
    expect(draft.stations).toHaveLength(6);
  });
});
