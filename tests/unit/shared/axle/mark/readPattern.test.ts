import { describe, expect, test } from 'vitest';
import { heldOut, type Manner, unreadables } from '../../../../../hardware-sim/worlds/photos/manners.ts';
import { shoot } from '../../../../../hardware-sim/worlds/photos/shot.ts';
import { photograph } from '../../../../../hardware-sim/photos/photograph.ts';
import { compoundNames } from '../../../../../hardware-sim/photos/compound.ts';
import { drawScene, type Spoiling, spoilings } from '../../../../../hardware-sim/photos/scene.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { markSchema } from '../../../../../src/shared/axle/mark/mark.ts';
import { bendThrough } from '../../../../../src/shared/axle/mark/flankMap.ts';
import type { FlankCorners } from '../../../../../src/shared/axle/mark/photo.ts';
import { corrected } from '../../../../../src/shared/axle/mark/brush.ts';
import { type PatternReading, readPattern } from '../../../../../src/shared/axle/mark/readPattern.ts';

/** A rendered photograph, small to be quick; accuracy over many is the bench's affair. */
function taken(
  seed: number,
  other: { readonly spoilt?: Spoiling; readonly compound?: (typeof compoundNames)[number] } = {},
) {
  const random = seeded(seed);
  const scene = drawScene(random, [800, 600], other.spoilt);
  const film = { ...scene.film, compound: other.compound ?? scene.film.compound };
  return photograph({ ...scene, film }, random);
}

function readOf(picture: ReturnType<typeof taken>, corners: FlankCorners = picture.tapped): PatternReading {
  const reading = readPattern(picture.photo, corners);
  if (!reading.ok) throw new Error(reading.problem.sentence);
  return reading.value;
}

describe('reading a rendered photograph', () => {
  test('says of a nearly black one that it is too dark, and not that nothing was painted', () => {
    const picture = taken(57, { spoilt: 'no-mark' });
    const dim = { ...picture.photo, data: picture.photo.data.map((value, k) => (k % 4 === 3 ? value : value / 12)) };
    const read = readPattern(dim, picture.tapped);
    expect(read.ok ? undefined : read.problem.kind).toBe('too-dark');
    const light = readPattern(picture.photo, picture.tapped);
    expect(light.ok).toBe(false);
    expect(light.ok ? undefined : light.problem.kind).not.toBe('too-dark');
  });

  test.each(compoundNames)('finds the mark in %s compound, and says how well', (compound) => {
    const picture = taken(compound.length + 50, { compound });
    const { mark } = readOf(picture);
    expect(Math.abs(mark.heel - picture.mark.heel)).toBeLessThan(0.04);
    expect(Math.abs(mark.crown - picture.mark.crown)).toBeLessThan(0.06);
    expect(Math.abs(mark.length - picture.mark.length)).toBeLessThan(0.15);
    expect(mark.U95?.heel).toBeGreaterThan(0.01);
    expect(mark.U95?.heel).toBeLessThan(0.06);
    expect(mark.area).toBeGreaterThan(0.1);
    expect(markSchema.safeParse(mark).success).toBe(true);
  });

  test('does not care which way the tooth lies in the picture', () => {
    const picture = taken(3);
    const { width, height, data } = picture.photo;
    const turned = new Uint8Array(data.length);
    for (let k = 0; k < width * height; k += 1) {
      turned.set(data.subarray(4 * k, 4 * k + 4), 4 * (width * height - 1 - k));
    }
    const flipped = picture.tapped.map(([x, y]) => [width - 1 - x, height - 1 - y] as const);
    const [a, b, c, d] = flipped;
    if (a === undefined || b === undefined || c === undefined || d === undefined) throw new Error('four corners');
    const there = readPattern({ width, height, data: turned }, [a, b, c, d]);
    if (!there.ok) throw new Error(there.problem.sentence);
    const here = readOf(picture).mark;
    expect(there.value.mark.heel).toBeCloseTo(here.heel, 2);
    expect(there.value.mark.crown).toBeCloseTo(here.crown, 2);
  });

  test('takes edges bent by hand instead of looking for them', () => {
    const picture = taken(3);
    const bends = {
      toe: 0,
      heel: 0,
      crown: bendThrough(picture.tapped, 'crown', picture.middles[2]),
      root: bendThrough(picture.tapped, 'root', picture.middles[3]),
    };
    const reading = readPattern(picture.photo, picture.tapped, { bends });
    if (!reading.ok) throw new Error(reading.problem.sentence);
    expect(Math.abs(reading.value.mark.crown - picture.mark.crown)).toBeLessThan(0.05);
    expect(reading.value.map.bends).toEqual(bends);
  });

  test('is the same every time', () => {
    const picture = taken(3);
    expect(readOf(picture).mark).toEqual(readOf(picture).mark);
  });
});

describe('a photo that cannot be read gives no answer', () => {
  test.each(spoilings)('%s', (spoilt) => {
    const picture = taken(61, { spoilt });
    expect(readPattern(picture.photo, picture.tapped).ok).toBe(false);
  });

  test('corners that make no flank, lie outside, or span too little are named', () => {
    const picture = taken(3);
    const [a, b, c, d] = picture.tapped;
    const kind = (corners: FlankCorners) => {
      const reading = readPattern(picture.photo, corners);
      return reading.ok ? 'read' : reading.problem.kind;
    };
    expect(kind([a, c, b, d])).toBe('corners');
    expect(kind([a, b, c, [5000, 10]])).toBe('outside-photo');
    expect(
      kind([
        [100, 120],
        [100, 100],
        [140, 100],
        [140, 120],
      ]),
    ).toBe('too-small');
  });

  test('a flank seen nearly along itself is refused, but not where its edges were bent by hand', () => {
    const picture = taken(3);
    const flat: FlankCorners = [
      [100, 300],
      [100, 260],
      [520, 255],
      [520, 300],
    ];
    const kind = (options = {}) => {
      const reading = readPattern(picture.photo, flat, options);
      return reading.ok ? 'read' : reading.problem.kind;
    };
    expect(kind()).toBe('too-flat');
    expect(kind({ bends: { toe: 0, heel: 0, crown: 0.1, root: 0.1 } })).not.toBe('too-flat');
  });
});

describe('films of another world', () => {
  const shot = (manner: Manner, seed: number) => shoot({ compound: 'yellow', metal: 'dark', manner }, seeded(seed));

  test('a mark that stands out from the streaks of a brush is read', () => {
    const { photo, tapped, mark, eyesight } = shot(heldOut.streaky, 671_005);
    expect(eyesight.reads).toBe(true);
    const read = readPattern(photo, tapped);
    if (!read.ok || mark === undefined) throw new Error('not read');
    expect(Math.abs(read.value.mark.heel - mark.heel)).toBeLessThan(read.value.mark.U95?.heel ?? 0);
    expect(Math.abs(read.value.mark.crown - mark.crown)).toBeLessThan(read.value.mark.U95?.crown ?? 0);
  });

  test('one that compound left in it breaks up is refused, or doubted by as much as its middle is not known', () => {
    for (const seed of [671_031, 671_032, 671_034]) {
      const { photo, tapped, mark } = shot(heldOut.streaky, seed);
      const read = readPattern(photo, tapped);
      const found = read.ok ? read.value.mark : undefined;
      const off = found === undefined ? 0 : Math.abs(found.heel - (mark?.heel ?? Number.NaN));
      expect(off, `${seed}`).toBeLessThanOrEqual(found?.U95?.heel ?? 0);
    }
  });

  test('rust that shines through a thin film all over the flank is no mark', () => {
    const rusty = { compound: 'orange', metal: 'bright', manner: unreadables['no mark, rusty'] } as const;
    const { photo, tapped } = shoot(rusty, seeded(672_008));
    expect(readPattern(photo, tapped)).toMatchObject({ ok: false, problem: { kind: 'no-compound' } });
  });

  test('streaks and smears alone are no mark', () => {
    for (const name of ['no mark, streaky', 'smeared', 'no mark, rusty'] as const) {
      for (const seed of [771_001, 771_002]) {
        const { photo, tapped } = shot(unreadables[name], seed);
        expect(readPattern(photo, tapped).ok, `${name} ${seed}`).toBe(false);
      }
    }
  });
});

describe('the brush', () => {
  test('adds to the mark and takes from it, and the centre follows', () => {
    const reading = readOf(taken(3));
    const touch = (heel: number, to: 'mark' | 'compound') => ({ along: heel + 0.5, up: 0.5, radius: 0.06, to });
    const more = corrected(reading, [touch(0.42, 'mark')]);
    const less = corrected(reading, [touch(reading.mark.heel + 0.2, 'compound')]);
    if (!more.ok || !less.ok) throw new Error('a mark is left');
    expect(more.value.mark.heel).toBeGreaterThan(reading.mark.heel);
    expect(more.value.mark.area).toBeGreaterThan(reading.mark.area);
    expect(less.value.mark.heel).toBeLessThan(reading.mark.heel);
    expect(reading.mask).not.toEqual(more.value.mask);
  });

  test('that takes everything leaves no mark', () => {
    const gone = corrected(readOf(taken(3)), [{ along: 0.5, up: 0.5, radius: 2, to: 'compound' }]);
    expect(gone.ok).toBe(false);
  });
});
