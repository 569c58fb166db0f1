import { describe, expect, it } from 'vitest';
import { recordedBacklash } from '../../../../../src/shared/job/checks/recordedBacklash.ts';
import { readNotebook } from '../../../../../src/shared/job/records/build.ts';
import type { Deed, Entry } from '../../../../../src/shared/job/records/notebook.ts';
import { stripOf } from '../../../../../src/shared/job/checks/strip.ts';
import { makeUpOf } from '../../axle/mark/marks.ts';

const at = '2026-11-25T12:00:00.000Z';
const entry = (id: string, deed: Deed): Entry => ({ id, version: 1, at, by: 'A. Tester', deed });
const started = entry('start', { kind: 'started', title: 'Axle', technician: 'A. Tester' });
const described = entry('axle', { kind: 'described', makeUp: makeUpOf({ gearSet: 'used' }) });
const assembled = (id: string, phase: 'as-found' | 'trial'): Entry =>
  entry(id, { kind: 'assembled', assembly: { phase, bearings: 'set-up', seal: 'out', sleeve: false } });
const measured = (
  assembly: string,
  deed: Omit<Extract<Deed, { kind: 'measured' }>, 'kind' | 'assembly' | 'how'>,
): Entry => entry(`${assembly} ${deed.check}`, { kind: 'measured', assembly, how: { kind: 'seen' }, ...deed });
const packs = (assembly: string, ...thick: readonly (readonly [number, string])[]): Entry =>
  measured(assembly, {
    check: 'shims',
    result: {
      kind: 'shims',
      packs: thick.map(([value, unit], n) => ({
        place: n === 0 ? ('pinion-depth' as const) : ('ring-side' as const),
        each: [],
        pack: { value, unit },
      })),
    },
  });

describe('the strip of all trials', () => {
  it('says by how much each pack differs from the one before, across units and across trials without one', () => {
    const build = readNotebook('b', [
      started,
      described,
      assembled('found', 'as-found'),
      packs('found', [1, 'mm'], [2.5, 'mm']),
      assembled('one', 'trial'),
      packs('one', [0.04, '[in_i]']),
      assembled('two', 'trial'),
      packs('two', [1.016, 'mm'], [2.4, 'mm']),
    ]);
    const [found, one, two] = stripOf(build);
    expect(found?.packs.map(({ change_mm }) => change_mm)).toEqual([undefined, undefined]);
    // 0.04 in is 1.016 mm exactly.
    expect(one?.packs[0]?.change_mm).toBeCloseTo(0.016, 9);
    // Under the head a thicker pack pushes the pinion in; trials are compared with trials only.
    expect(found?.moved).toBeUndefined();
    expect(one?.moved).toBeUndefined();
    expect(two?.moved).toEqual({ pinionOut_mm: 0 });
    expect(two?.packs.map(({ change_mm }) => change_mm)).toEqual([0, expect.closeTo(-0.1, 9)]);
  });
});

describe('one putting-together in the strip', () => {
  const mark = measured('one', {
    check: 'mark',
    result: { kind: 'mark', drive: { none: 'not drawn' }, coast: { none: 'not drawn' }, judgement: 'change' },
  });
  const wrongKind = measured('one', { check: 'backlash', result: { kind: 'confirmed', yes: true } });

  it('carries the last backlash and mark that were read, and nothing where there is none', () => {
    const bare = stripOf(readNotebook('b', [started, described, assembled('one', 'trial')]))[0];
    expect(bare?.backlash).toBeUndefined();
    expect(bare?.mark).toBeUndefined();
    expect(bare?.expected).toBeUndefined();
    expect(bare?.packs).toEqual([]);
    const read = stripOf(readNotebook('b', [started, described, assembled('one', 'trial'), mark, wrongKind]))[0];
    expect(read?.mark?.judgement).toBe('change');
    expect(read?.backlash).toBeUndefined();
  });

  it('is shown with every pack while nobody has described the axle', () => {
    const build = readNotebook('b', [started, assembled('one', 'trial'), packs('one', [1, 'mm'], [2, 'mm'])]);
    expect(stripOf(build)[0]?.packs.map(({ place }) => place)).toEqual(['pinion-depth', 'ring-side']);
    expect(stripOf(build)[0]?.moved).toBeUndefined();
  });

  it('takes for no change what a micrometer does not tell, and for one what it does', () => {
    const changeBy = (by: number): number | undefined =>
      stripOf(
        readNotebook('b', [
          started,
          described,
          assembled('one', 'trial'),
          packs('one', [1, 'mm']),
          assembled('two', 'trial'),
          packs('two', [1 + by, 'mm']),
        ]),
      )[1]?.packs[0]?.change_mm;
    expect(changeBy(0.0004)).toBe(0);
    expect(changeBy(-0.0004)).toBe(0);
    expect(changeBy(0.0006)).toBeCloseTo(0.0006, 9);
    expect(changeBy(-0.0006)).toBeCloseTo(-0.0006, 9);
  });
});

describe('where things stand since the first trial', () => {
  const side = (assembly: string, depth: number, ring: number, other: number): Entry =>
    measured(assembly, {
      check: 'shims',
      result: {
        kind: 'shims',
        packs: (['pinion-depth', 'ring-side', 'opposite-side'] as const).map((place, n) => ({
          place,
          each: [],
          pack: { value: [depth, ring, other][n] ?? 0, unit: 'mm' },
        })),
      },
    });

  it('follows from the packs: deeper with more under the head, away with more on the opposite side', () => {
    const build = readNotebook('b', [
      started,
      described,
      assembled('one', 'trial'),
      side('one', 1, 6, 6),
      assembled('two', 'trial'),
      side('two', 1.1, 5.95, 6.05),
    ]);
    const moved = stripOf(build)[1]?.moved;
    expect(moved?.pinionOut_mm).toBeCloseTo(-0.1, 9);
    expect(moved?.ringAway_mm).toBeCloseTo(0.05, 9);
  });
});

describe('a backlash recorded as found', () => {
  const backlash = measured('found', {
    check: 'backlash',
    result: {
      kind: 'backlash',
      basis: { direction: 'along-rotation', at: 'heel' },
      stations: [
        {
          number: 1,
          value_mm: 0.3,
          rocks: 1,
          sd_mm: { none: 'one rock' },
          u_mm: 0.01,
          U95_mm: 0.02,
          flags: [],
          parts: [],
        },
      ],
      mean_mm: 0.3,
      min_mm: 0.3,
      max_mm: 0.3,
      variation_mm: 0,
    },
  });
  const tight = (yes: boolean) => measured('found', { check: 'case-tight', result: { kind: 'confirmed', yes } });
  const said = (...more: readonly Entry[]) =>
    recordedBacklash(readNotebook('b', [started, described, assembled('found', 'as-found'), ...more]))[0]?.text;

  it('is asked about, refused as target with loose case bearings, and left alone with tight ones', () => {
    expect(said()).toContain('No backlash was recorded as found');
    expect(said(backlash)).toMatch(/^Were the case bearings without play/u);
    expect(said(backlash, tight(false))).toContain('go by the mark, not by that backlash');
    expect(said(backlash, tight(true))).toBeUndefined();
  });

  it('takes the word of an indicator for it: loose where it reads more than its doubt', () => {
    const play = (value_mm: number) =>
      measured('found', {
        check: 'case-tight',
        result: { kind: 'play', value_mm, strokes: 4, sd_mm: 0.001, u_mm: 0.002, U95_mm: 0.004, flags: [], parts: [] },
      });
    expect(said(backlash, play(0.03))).toContain('go by the mark, not by that backlash');
    expect(said(backlash, play(0.003))).toBeUndefined();
  });

  it('is no question on a new set', () => {
    const fresh = entry('axle', { kind: 'described', makeUp: makeUpOf() });
    expect(recordedBacklash(readNotebook('b', [started, fresh, assembled('found', 'as-found'), backlash]))).toEqual([]);
  });
});
