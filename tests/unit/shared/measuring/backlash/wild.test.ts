import { describe, expect, it } from 'vitest';
import { corridorOf } from '../../../../../src/shared/measuring/backlash/corridor.ts';
import { goesOn, newWild, sifted } from '../../../../../src/shared/measuring/backlash/wild.ts';

const sift = (values: readonly number[], where: Parameters<typeof sifted>[2]): readonly number[] => {
  const wild = newWild();
  return values.flatMap((value, tick) =>
    goesOn(wild, value, where.corridor, 0.001)
      ? [value]
      : sifted(wild, { t: tick, value }, where).map((reading) => reading.value),
  );
};

const onTooth = { corridor: corridorOf(2, 2.2, 0.001), interval: 0.1 };
const offTooth = { ...onTooth, corridor: undefined };

describe('a wild reading', () => {
  it('on a tooth is left out, however far it went', () => {
    expect(sift([2, 2, 5, 2, 2.2], onTooth)).toEqual([2, 2, 2, 2.2]);
    expect(sift([2, 2.4, 2], onTooth)).toEqual([2, 2]);
  });

  it('off a tooth is left out where the next one is back', () => {
    expect(sift([0, 0.001, 0.5, 0, 0.001], offTooth)).toEqual([0, 0.001, 0, 0.001]);
  });

  it('is none inside the corridor, where a leap may be a stroke', () => {
    expect(sift([2, 2.2, 2], onTooth)).toEqual([2, 2.2, 2]);
  });

  it('is none where the next one bears it out', () => {
    expect(sift([2, 1.2, 0.4, 0, 0], onTooth)).toEqual([2, 1.2, 0.4, 0, 0]);
    expect(sift([0, 0.5, 1, 1.5, 1.5], offTooth)).toEqual([0, 0.5, 1, 1.5, 1.5]);
  });

  it('may come twice where readings come faster than any lift', () => {
    const fast = { ...onTooth, interval: 0.02 };
    expect(sift([2, 5, 0.3, 2], fast)).toEqual([2, 2]);
    expect(sift([2, 1.9, 1.5, 1.1], fast)).toEqual([2, 1.9, 1.5, 1.1]);
    expect(sift([2, 5, 0.3, 2], onTooth)).toEqual([2, 5, 0.3, 2]);
  });
});
