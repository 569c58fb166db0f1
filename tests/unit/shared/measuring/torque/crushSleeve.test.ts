import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sleeveAdvice, type SleeveStep } from '../../../../../src/shared/measuring/torque/crushSleeve.ts';
import { degrees, newtonMetres, toDegrees, radians } from '../../../../../src/shared/basics/quantity.ts';
import { isNone } from '../../../../../src/shared/basics/result.ts';

const target = { min: newtonMetres(1.7), max: newtonMetres(2.3), ceiling: newtonMetres(400) };
const step = (running: number, more: Partial<SleeveStep> = {}): SleeveStep => ({
  running: newtonMetres(running),
  u: 0.03,
  ...more,
});
const stand = (...torques: number[]) =>
  sleeveAdvice(
    torques.map((torque) => step(torque)),
    target,
  ).stand;

describe('creeping up on a crush sleeve', () => {
  it('knows where it stands', () => {
    expect(stand()).toBe('start');
    expect(stand(0.3)).toBe('below');
    expect(stand(0.3, 0.5)).toBe('below');
    expect(stand(0.5, 0.8, 1.4)).toBe('small-steps');
    expect(stand(0.8, 1.4, 1.7)).toBe('in-band');
    expect(stand(0.8, 1.4, 2.3)).toBe('in-band');
    expect(stand(0.8, 1.4, 2.4)).toBe('above');
  });

  it('says plainly above the band that backing off is no remedy', () => {
    const { sentence, remedy } = sleeveAdvice([step(2.5)], target);
    expect(sentence).toMatch(/Backing off the nut is no remedy/u);
    expect(remedy).toMatch(/new sleeve and a new nut/u);
  });

  it('stops at the maker’s ceiling, but not once the band is reached', () => {
    expect(sleeveAdvice([step(0.5, { nutTorque: newtonMetres(400) })], target).stand).toBe('ceiling');
    expect(sleeveAdvice([step(0.5, { nutTorque: newtonMetres(399) })], target).stand).toBe('below');
    expect(sleeveAdvice([step(2, { nutTorque: newtonMetres(420) })], target).stand).toBe('in-band');
    expect(sleeveAdvice([step(3, { nutTorque: newtonMetres(420) })], target).stand).toBe('above');
  });

  it('expects the next step to bring more, as drag comes suddenly', () => {
    const { next } = sleeveAdvice([step(0.3), step(0.5), step(0.8)], target);
    expect(isNone(next) ? 0 : next.running).toBeCloseTo(0.8 + 0.3 * 1.5, 9);
    expect(sleeveAdvice([step(0.3)], target).next).toEqual({ none: 'too-few-steps' });
  });

  it('counts by the turn of the nut where it is known', () => {
    const steps = [
      step(0.5, { nutTurn: degrees(20) }),
      step(0.7, { nutTurn: degrees(20) }),
      step(0.9, { nutTurn: degrees(10) }),
    ];
    const { toMiddle, next } = sleeveAdvice(steps, target);
    expect(isNone(toMiddle) ? 0 : toDegrees(radians(toMiddle))).toBeCloseTo(55, 6);
    expect(isNone(next) ? 0 : next.running).toBeCloseTo(1.3, 9);
    expect(sleeveAdvice([step(0.5), step(0.7)], target).toMiddle).toEqual({ none: 'no-nut-angle' });
  });

  it('never expects less than now, and keeps the last five steps', () => {
    const torques = fc.array(fc.double({ min: 0, max: 3, noNaN: true }), { minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(torques, (values) => {
        const { next, last } = sleeveAdvice(
          values.map((value) => step(value)),
          target,
        );
        expect(isNone(next) ? -1 : next.running).toBeGreaterThanOrEqual(values.at(-1) ?? 0);
        expect(last.map(({ running }) => running)).toEqual(values.slice(-5));
      }),
    );
  });
});
