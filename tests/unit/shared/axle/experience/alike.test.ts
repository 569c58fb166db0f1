import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Earlier, type Picture, pictureFrom } from '../../../../../src/shared/axle/experience/alike.ts';
import { lessonAt } from '../../../../../src/shared/axle/experience/lesson.ts';
import { builds, lesson, sharesAll, sharing } from './lessons.ts';

const size = lessonAt.length;
/** The unknowns of each trait in a lesson: film, relief of the drive flank, sizes as read, backlash of the ring gear. */
const [film, relief, reading, backlash] = [0, 3, 7, size - 1];
const meanOf = ({ mean }: Picture, k = relief): number => mean[k] ?? Number.NaN;
const spreadOf = ({ covariance }: Picture, k = relief): number => Math.sqrt(covariance[k * size + k] ?? Number.NaN);
const tenAgree = builds([0.9, 1, 1.1, 1, 0.95, 1.05, 1, 0.9, 1.1, 1]);
const tenDiffer = builds([2, -2, 1.5, -1.5, 2.2, -2.2, 1, -1, 1.8, -1.8]);

describe('what earlier builds lead to expect', () => {
  it('goes to where builds agree, and is sure there', () => {
    const picture = pictureFrom(tenAgree);
    expect(meanOf(picture)).toBeGreaterThan(0.8);
    expect(meanOf(picture)).toBeLessThan(1.1);
    expect(spreadOf(picture)).toBeLessThan(0.5);
    expect(picture.alike.relief).toBeGreaterThan(0.8);
  });

  it('stays what is usual where builds contradict each other', () => {
    const picture = pictureFrom(tenDiffer);
    expect(Math.abs(meanOf(picture))).toBeLessThan(0.15);
    expect(spreadOf(picture)).toBeGreaterThan(0.85);
    expect(picture.alike.relief).toBeLessThan(0.2);
  });

  it('believes of the film that at most half is in common, however alike it looks', () => {
    expect(pictureFrom(tenAgree).alike.film).toBeGreaterThan(0.3);
    expect(spreadOf(pictureFrom(tenAgree), film)).toBeGreaterThan(0.7);
  });

  it('is moved little by one build, and more by each that agrees', () => {
    const means = [1, 3, 8].map((count) => meanOf(pictureFrom(builds(Array.from({ length: count }, () => 1)))));
    expect(means[0]).toBeLessThan(0.6);
    expect(means[0]).toBeGreaterThan(0.05);
    expect(means).toEqual(means.toSorted((a, b) => a - b));
  });

  it('learns of each cause only from builds that share it', () => {
    const picture = pictureFrom(builds([1, 1, 1, 1, 1, 1], sharing('relief')));
    expect(meanOf(picture, relief)).toBeGreaterThan(0.5);
    expect(meanOf(picture, film)).toBeCloseTo(0, 10);
    expect(meanOf(picture, backlash)).toBeCloseTo(0, 10);
    expect(spreadOf(picture, film)).toBeCloseTo(1, 10);
  });

  it('tells film from relief where builds with one film and many reliefs stand beside builds of this axle', () => {
    const blurred = (of: number): Earlier['lesson'] => {
      // Film and lengthwise relief known only by their difference: what the size of a single mark tells.
      const plain = lesson([], 1e6);
      const information = [...plain.information];
      for (const [i, j, sign] of [
        [0, 0, 1],
        [1, 1, 1],
        [0, 1, -1],
        [1, 0, -1],
      ] as const)
        information[i * size + j] = sign * 16;
      return { information, pull: [16 * of, -16 * of, ...Array.from({ length: size - 2 }, () => 0)] };
    };
    const ofThisAxle = [0, 1, 2, 3, 4, 5].map((n) => ({ id: `a${n}`, lesson: blurred(0), shares: sharesAll }));
    const ofThisHand = [0, 1, 2, 3, 4, 5].map((n) => ({
      id: `h${n}`,
      lesson: lesson([1.2], 0.3),
      shares: sharing('hand'),
    }));
    const alone = pictureFrom(ofThisAxle);
    const both = pictureFrom([...ofThisAxle, ...ofThisHand]);
    expect(meanOf(alone, 1)).toBeCloseTo(0, 6);
    // The hand's film is thick, marks are of usual size: so the relief must be strong.
    expect(meanOf(both, 1)).toBeGreaterThan(0.4);
  });

  it('does not take a film that differs each time for alike because one hand reads sizes alike', () => {
    const films = [1.5, -1.5, 1.2, -1.2, 1.6, -1.6, 1.4, -1.4];
    const told = films.map((of, n) => ({
      id: `b${n}`,
      lesson: lesson([of, 0, 0, 0, 0, 0, 0, -1.3, -1.3], 0.3),
      shares: sharing('hand'),
    }));
    const picture = pictureFrom(told);
    expect(picture.alike.film).toBeLessThan(0.2);
    expect(picture.alike.reading).toBeGreaterThan(0.8);
    expect(spreadOf(picture, film)).toBeGreaterThan(0.85);
    expect(meanOf(picture, reading)).toBeLessThan(-1);
  });

  it('does not hang on the order of the builds', () => {
    const any = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(any, fc.integer({ min: 0, max: 5 }), (values, by) => {
        const told = builds(values);
        const turned = [...told.slice(by % told.length), ...told.slice(0, by % told.length)].toReversed();
        expect(pictureFrom(turned)).toEqual(pictureFrom(told));
      }),
      { numRuns: 20 },
    );
  });

  it('is never surer of a contradiction than of agreement, and never surer than it was by much less than nothing', () => {
    const any = fc.array(fc.double({ min: -1.5, max: 1.5, noNaN: true }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(any, (values) => {
        const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
        const agree = pictureFrom(builds(values.map(() => middle)));
        const asRead = pictureFrom(builds(values));
        expect(spreadOf(asRead)).toBeGreaterThan(spreadOf(agree) - 1e-9);
        expect(spreadOf(asRead)).toBeLessThan(1.2);
      }),
      { numRuns: 25 },
    );
  });
});
