import { describe, expect, test } from 'vitest';
import { coastBesideDrive, farApart } from '../../../../../src/shared/axle/mark/meaning/coast.ts';
import { makeUpOf, markAt } from './marks.ts';

const said = (drive: ReturnType<typeof markAt>, coast: ReturnType<typeof markAt>, used = false) =>
  coastBesideDrive({ drive, coast }, used);
const ofKind = (kind: string, all: ReturnType<typeof said>) => all.filter((one) => one.kind === kind);

describe('coast beside drive', () => {
  test('that lies higher or lower is said with the way and by how much', () => {
    const above = ofKind('agreement', said(markAt(0, -0.1), markAt(0, 0.2)));
    expect(above[0]?.text).toMatch(
      /30 hundredths of the height above|30 % of the height above|0\.30 of the height above/u,
    );
    const below = ofKind('agreement', said(markAt(0, 0.2), markAt(0, -0.1)));
    expect(below[0]?.text).toContain('of the height below the drive mark');
  });

  test('agrees within a tenth of the height, or within what reading can tell', () => {
    const agree = (apart: number, U95: number): boolean => {
      const at = (crown: number) => markAt(0, crown, { U95: { heel: 0.03, crown: U95 } });
      return /about the same height/u.test(ofKind('agreement', said(at(0), at(apart)))[0]?.text ?? '');
    };
    expect(agree(0.09, 0.01)).toBe(true);
    expect(agree(-0.09, 0.01)).toBe(true);
    expect(agree(0.11, 0.01)).toBe(false);
    expect(agree(0.11, 0.09)).toBe(true);
    expect(agree(-0.14, 0.09)).toBe(false);
  });

  test('gives way to drive where only coast is off, and is heard where both say the same', () => {
    expect(ofKind('coast', said(markAt(0, 0), markAt(0, 0.25)))[0]?.text).toMatch(
      /coast mark is high while the drive/u,
    );
    expect(ofKind('coast', said(markAt(0, 0), markAt(0, -0.25)))[0]?.text).toMatch(
      /coast mark is low while the drive/u,
    );
    expect(ofKind('coast', said(markAt(0, 0.25), markAt(0, 0.25)))[0]?.text).toMatch(/high on both flanks/u);
    expect(ofKind('coast', said(markAt(0, -0.25), markAt(0, 0.25)))[0]?.text).toMatch(/Set the drive side first/u);
    // A used set is not told where a light mark should lie.
    expect(ofKind('coast', said(markAt(0, 0), markAt(0, 0.25), true))).toEqual([]);
  });

  test('alone asks for the other, by name', () => {
    expect(coastBesideDrive({ drive: markAt(0, 0) }, false)[0]?.text).toMatch(
      /Only the drive flank.*Read the coast flank/u,
    );
    expect(coastBesideDrive({ coast: markAt(0, 0) }, false)[0]?.text).toMatch(
      /Only the coast flank.*drive side decides/u,
    );
  });
});

describe('marks that no shim brings together', () => {
  const beyond = (drive: ReturnType<typeof markAt>, coast: ReturnType<typeof markAt>, cut?: 'face-hobbed') =>
    farApart({ drive, coast }, makeUpOf(cut === undefined ? {} : { cut })).map(({ text }) => text);

  test('one high and one low, whichever is which', () => {
    expect(beyond(markAt(0, 0.2), markAt(0, -0.2))[0]).toMatch(/One flank is marked high and the other low/u);
    expect(beyond(markAt(0, -0.2), markAt(0, 0.2))[0]).toMatch(/One flank is marked high and the other low/u);
    expect(beyond(markAt(0, 0.14), markAt(0, -0.14))).toEqual([]);
    // Far apart, and both on one side of the middle.
    expect(beyond(markAt(0, 0.4), markAt(0, 0.05))).toEqual([]);
  });

  test('height right, one at the toe and one at the heel, whichever is which', () => {
    expect(beyond(markAt(-0.2, 0), markAt(0.2, 0))[0]).toMatch(
      /one flank is marked at the toe and the other at the heel/u,
    );
    expect(beyond(markAt(0.2, 0), markAt(-0.2, 0))[0]).toMatch(
      /one flank is marked at the toe and the other at the heel/u,
    );
    expect(beyond(markAt(-0.15, 0), markAt(0.15, 0))).toEqual([]);
    expect(beyond(markAt(0.45, 0), markAt(0.05, 0))).toEqual([]);
    // Height comes first: while it is off, nothing is said of axes.
    expect(beyond(markAt(-0.2, 0.3), markAt(0.2, 0.3))).toEqual([]);
  });

  test('on a face-hobbed set the ring gear is tried first', () => {
    expect(beyond(markAt(-0.2, 0), markAt(0.2, 0), 'face-hobbed')[0]).toContain('try that first');
    expect(beyond(markAt(-0.2, 0), markAt(0.2, 0))[0]).not.toContain('try that first');
  });
});
