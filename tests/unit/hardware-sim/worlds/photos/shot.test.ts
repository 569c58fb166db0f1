import { describe, expect, test } from 'vitest';
import { drawContact, truthOf, untouched } from '../../../../../hardware-sim/worlds/photos/contact.ts';
import { heldOut, looked, unreadables } from '../../../../../hardware-sim/worlds/photos/manners.ts';
import { shoot } from '../../../../../hardware-sim/worlds/photos/shot.ts';
import { drawTooth, flankPoint, heightAt } from '../../../../../hardware-sim/worlds/photos/tooth.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';

const small = [300, 225] as const;

describe('the world of photographs with other beliefs', () => {
  const tooth = drawTooth(seeded(5), { narrowing: [0.7, 0.7], bow: [0, 0], curve: [0.3, 0.3] });

  test('lets a tooth be lower at the toe by as much as was asked for', () => {
    const across = (heel: number) => {
      const [low, high] = [flankPoint(tooth, heel, -0.5), flankPoint(tooth, heel, 0.5)];
      return high[2] - low[2];
    };
    expect(across(-0.5) / across(0.5)).toBeCloseTo(0.7, 6);
    expect(heightAt(tooth, 0)).toBeCloseTo(tooth.height, 9);
  });

  test('counts the centre of a mark where the tooth is higher as more', () => {
    const everywhere = { near: () => 0, left: () => 0 };
    const whole = truthOf(everywhere, tooth);
    // Height from 0.7 to 1: centroid of a trapezium, (1 − 0.7) / (6 · (1 + 0.7)) from the middle.
    expect(whole.heel).toBeCloseTo(0.3 / 10.2, 4);
    expect(whole.area).toBeCloseTo(1, 9);
    expect(Object.values(whole.edges)).toEqual(['hard', 'hard', 'hard', 'hard']);
    expect(truthOf(untouched, tooth).area).toBe(0);
  });

  test('says which edges a mark touches', () => {
    const disc = { near: (heel: number, crown: number) => Math.hypot(heel - 0.3, crown) / 0.25, left: () => 0 };
    const left = (heel: number, crown: number) => (disc.near(heel, crown) < 1 ? 0 : 1);
    expect(truthOf({ ...disc, left }, tooth).edges).toEqual({
      toe: 'clear',
      heel: 'hard',
      crown: 'clear',
      root: 'clear',
    });
  });

  test('takes the same photo from the same seed, and a person reads red on dark metal in it', () => {
    const wanted = { compound: 'red', metal: 'dark', manner: looked.plain, size: small } as const;
    const [one, other] = [shoot(wanted, seeded(3)), shoot(wanted, seeded(3))];
    expect(one.photo.data).toEqual(other.photo.data);
    expect(one.eyesight.reads).toBe(true);
    expect(one.eyesight.difference).toBeGreaterThan(20);
  });

  test('shows no mark where none was made', () => {
    const { mark, eyesight } = shoot(
      { compound: 'yellow', metal: 'dark', manner: unreadables['no mark'], size: small },
      seeded(4),
    );
    expect(mark).toBeUndefined();
    expect(eyesight.reads).toBe(false);
  });

  test('keeps the manners that are looked at apart from those held out', () => {
    const shared = Object.keys(heldOut).filter((name) => name in looked);
    expect(shared).toEqual([]);
    expect(Object.keys(heldOut).length).toBe(Object.keys(looked).length);
  });

  test('draws marks that lie on the flank', () => {
    for (let seed = 0; seed < 20; seed += 1) {
      const random = seeded(seed);
      const drawn = truthOf(drawContact(random, drawTooth(random, looked.plain.tooth), looked.plain.contact), tooth);
      expect(drawn.area).toBeGreaterThan(0.03);
      expect(Math.abs(drawn.heel)).toBeLessThan(0.5);
    }
  });
});
