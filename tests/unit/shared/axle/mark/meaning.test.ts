import { describe, expect, test } from 'vitest';
import { meaningOf } from '../../../../../src/shared/axle/mark/meaning.ts';
import { aimOf, inStretch } from '../../../../../src/shared/axle/plan/aim.ts';
import { repaintOf } from '../../../../../src/shared/axle/plan/repaint.ts';
import { asked, trial } from '../plan/scenes.ts';
import { makeUpOf, markAt } from './marks.ts';

const both = (drive: readonly [number, number], coast: readonly [number, number]) => [
  { drive: markAt(...drive), coast: markAt(...coast) },
];
const kinds = (seen: ReturnType<typeof both>, makeUp = makeUpOf()) =>
  meaningOf({ seen }, makeUp).map(({ kind }) => kind);
const texts = (...given: Parameters<typeof meaningOf>) =>
  meaningOf(...given)
    .map(({ text }) => text)
    .join('\n');

describe('what marks mean', () => {
  test('height comes first, then along the face, then coast', () => {
    const order = kinds(both([0.3, 0.3], [0.1, 0.25]));
    expect(order[0]).toBe('height');
    expect(order.indexOf('along-face')).toBeLessThan(order.indexOf('agreement'));
  });

  test('says too close to call inside what reading can tell', () => {
    expect(texts({ seen: both([0, 0.14], [0, 0.1]) }, makeUpOf())).toMatch(
      /too close to the end of the middle to call/u,
    );
  });

  test('a mark cut off at an edge is a bound', () => {
    const cut = markAt(0, 0.3, { edges: { toe: 'clear', heel: 'clear', crown: 'hard', root: 'clear' } });
    expect(texts({ seen: [{ drive: cut }] }, makeUpOf())).toMatch(/at least that far/u);
    expect(kinds([{ drive: cut, coast: markAt(0, 0.3) }])).toContain('hard-line');
  });

  test('a mark that an end cuts off, or that covers everything, is not said to lie in its place', () => {
    const edges = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;
    const heeled = texts(
      { seen: [{ drive: markAt(0.115, 0, { length: 0.77, edges: { ...edges, heel: 'hard' } }) }] },
      makeUpOf(),
    );
    expect(heeled).not.toMatch(/lies in the middle or a little to the toe/u);
    expect(heeled).toMatch(/runs off the heel in a hard line: its true centre lies farther to the heel/u);
    expect(heeled).toMatch(/On the convex flank a mark at the heel goes with a ring gear too far away/u);
    const all = { toe: 'feathered', heel: 'feathered', crown: 'feathered', root: 'feathered' } as const;
    const covered = texts({ seen: [{ drive: markAt(0, 0, { length: 1, height: 1, edges: all }) }] }, makeUpOf());
    expect(covered).not.toMatch(/depth is about right|as a mark rolled by hand should/u);
    expect(covered).toMatch(/runs out at root, crown, toe and heel: .* tells nothing of where it lies/u);
    const across = { ...edges, toe: 'feathered', heel: 'feathered' } as const;
    const long = texts({ seen: [{ drive: markAt(0, 0, { length: 1, edges: across }) }] }, makeUpOf());
    expect(long).toMatch(/does not say where along the face/u);
    expect(long).toMatch(/depth is about right/u);
  });

  test('a used set is warned only of hard lines that its own mark did not have', () => {
    const rooted = markAt(0, -0.3, { edges: { toe: 'clear', heel: 'clear', crown: 'clear', root: 'hard' } });
    const used = makeUpOf({ gearSet: 'used' });
    expect(texts({ seen: [{ drive: rooted }], asFound: { drive: rooted } }, used)).not.toMatch(/hard line/u);
    expect(texts({ seen: [{ drive: rooted }], asFound: { drive: markAt(0, -0.1) } }, used)).toMatch(
      /hard line at the root that it did not have as found/u,
    );
  });

  test('never names a shim or an amount', () => {
    for (const crown of [-0.4, -0.1, 0, 0.2, 0.4]) {
      for (const heel of [-0.4, 0, 0.4]) {
        const said = texts({ seen: both([heel, crown], [-heel, -crown]) }, makeUpOf());
        expect(said).not.toMatch(/\bmm\b|\binch|thicker shim|thinner shim|add a shim|!/u);
      }
    }
  });

  test('withholds what depth does along the face while the cut is not known, and says that sources disagree', () => {
    const said = meaningOf({ seen: both([0.3, 0.3], [0, 0.3]) }, makeUpOf({ cut: 'not-known' }));
    expect(said.find(({ text }) => /neither names the cut/u.test(text))).toMatchObject({
      kind: 'sources-disagree',
      sources: ['TM 9-2320-266-34', 'TM 5-3805-260-24'],
    });
  });

  // Common practice (a maker's chart) and geometry: pinion out goes to the heel on the convex flank when face-milled.
  test.each([
    ['face-milled', 'convex', 'heel'],
    ['face-milled', 'concave', 'toe'],
    ['face-hobbed', 'convex', 'toe'],
    ['face-hobbed', 'concave', 'heel'],
  ] as const)('pinion out, %s, %s drive flank: to the %s', (cut, driveFlank, end) => {
    const said = meaningOf({ seen: both([0, 0.3], [0, 0.3]) }, makeUpOf({ cut, driveFlank }));
    const word = said.find(({ text }) => /taking the pinion out/u.test(text));
    expect(word?.text).toContain(`to the ${end} as well as up`);
    expect(word?.standing).toBe('common-practice');
  });

  test('a slant is normal for a face-hobbed set', () => {
    const slanted = [{ drive: markAt(0, 0, { slant_deg: 12 }), coast: markAt(0, 0) }];
    expect(texts({ seen: slanted }, makeUpOf({ cut: 'face-hobbed' }))).toMatch(
      /normal for a face-hobbed set: do not chase/u,
    );
    expect(texts({ seen: slanted }, makeUpOf())).toMatch(/usually squarer/u);
  });

  test('marks high on one flank and low on the other are beyond shims', () => {
    expect(kinds(both([0, 0.3], [0, -0.3]))).toContain('beyond-shims');
    expect(kinds(both([0, 0.3], [0, 0.3]))).not.toContain('beyond-shims');
  });

  test('cross bearing with height right is beyond shims', () => {
    expect(kinds(both([0.3, 0], [-0.3, 0]))).toContain('beyond-shims');
  });

  test('drive outranks coast', () => {
    expect(texts({ seen: both([0, 0], [0, 0.3]) }, makeUpOf())).toMatch(/drive side outranks it/u);
  });

  test('differences round the gear point to runout and seating', () => {
    const seen = [...both([0, 0], [0, 0]), ...both([0.2, 0], [0, 0])];
    expect(texts({ seen }, makeUpOf())).toMatch(/runout/u);
    expect(texts({ seen: [...both([0, 0], [0, 0]), ...both([0.01, 0], [0, 0])] }, makeUpOf())).toMatch(
      /alike at every place/u,
    );
  });

  test('nothing read means nothing said', () => {
    expect(meaningOf({ seen: [] }, makeUpOf())).toEqual([]);
  });
});

describe('a used set', () => {
  const used = makeUpOf({ gearSet: 'used' });
  const asFound = { drive: markAt(-0.1, 0.25), coast: markAt(0, 0.2) };

  test('has to repeat its own mark; being centred is no merit', () => {
    const moved = texts({ seen: both([0, 0], [0, 0]), asFound }, used);
    expect(moved).toMatch(/300 to 500 miles/u);
    expect(moved).toMatch(/drive mark has moved from its own place: 25 % of the height down/u);
    expect(moved).toMatch(/25 % of its height lower than where this set ran: the pinion stands deeper than it did/u);
    expect(moved).toMatch(/no merit/u);
    const back = texts({ seen: both([-0.1, 0.25], [0, 0.2]), asFound }, used);
    expect(back).toMatch(/is at the height where this set ran. That it is not the middle of the tooth is no fault/u);
    expect(texts({ seen: both([-0.1, 0.25], [0, 0.2]), asFound }, used)).toMatch(
      /drive mark lies where it lay before/u,
    );
  });

  test('is not judged by the middle, nor told where a light mark should lie', () => {
    expect(texts({ seen: both([0.3, 0.3], [0, 0]), asFound }, used)).not.toMatch(/too far out|too deep|too far away/u);
  });

  test('says that sources differ about a worn drive flank, and asks for wear where no mark was kept', () => {
    expect(meaningOf({ seen: both([0, 0], [0, 0]) }, used).map(({ kind }) => kind)).toContain('worn-drive');
    expect(texts({ seen: both([0, 0], [0, 0]) }, used)).toMatch(/old wear/u);
  });

  test('does not call a mark centred that an edge cuts off on the side it leans to', () => {
    const cut = markAt(0, -0.1, { edges: { toe: 'clear', heel: 'clear', crown: 'clear', root: 'hard' } });
    const height = (mark: typeof cut) => meaningOf({ seen: [{ drive: mark }] }, makeUpOf())[0]?.text;
    expect(height(cut)).toMatch(
      /the root cuts it off in a hard line: its true centre lies lower, and the pinion may be too deep/u,
    );
    expect(height({ ...cut, crown: -0.02 })).toMatch(/the root cuts it off in a hard line/u);
    const fading = { ...cut, crown: -0.02, edges: { ...cut.edges, root: 'feathered' } } as const;
    expect(height(fading)).toMatch(/^The drive mark is centred/u);
    expect(height({ ...cut, edges: markAt(0, 0).edges })).toMatch(/^The drive mark is centred/u);
  });

  test('tells the length of a mark and judges none by it, because manuals want three different ones', () => {
    const said = meaningOf({ seen: both([0, 0], [0, 0]) }, makeUpOf());
    expect(said.at(-1)).toMatchObject({
      kind: 'sources-disagree',
      sources: ['TM 5-3805-260-24', 'TM 5-4210-230-14&P-1', 'TM 10-3930-653-14&P'],
    });
    expect(said.at(-1)?.text).toContain('covers 50 % of the face');
  });

  test('says it in the order in which a technician reads: height, face, coast, agreement, places, slant, hard lines', () => {
    const slanted = (heel: number, crown: number) =>
      markAt(heel, crown, { slant_deg: 12, edges: { toe: 'hard', heel: 'clear', crown: 'clear', root: 'clear' } });
    const seen = [
      { drive: slanted(-0.3, 0.3), coast: markAt(0, -0.3) },
      { drive: slanted(-0.1, 0.1), coast: markAt(0, -0.3) },
    ];
    const kinds = meaningOf({ seen }, makeUpOf()).map(({ kind }) => kind);
    const order = ['height', 'along-face', 'coast', 'agreement', 'places', 'slant', 'hard-line', 'beyond-shims'];
    expect([...new Set(kinds)].filter((kind) => order.includes(kind))).toEqual(order);
  });
});

describe('what is said of a mark and what the plan does with it', () => {
  const edges = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;
  const marksThatTellNothing = {
    'a dot': markAt(0, 0, { length: 0.1, height: 0.12 }),
    'a thin line': markAt(0, 0, { length: 0.7, height: 0.08 }),
    'edge to edge': markAt(0, 0, { height: 1, edges: { ...edges, root: 'feathered', crown: 'feathered' } }),
    overdriven: markAt(0, 0, { height: 1, edges: { toe: 'hard', heel: 'hard', crown: 'hard', root: 'hard' } }),
    unreadable: markAt(0, 0, { U95: { heel: 0.25, crown: 0.25 } }),
  };

  test.each(Object.entries(marksThatTellNothing))('%s: neither reads anything out of it', (_name, drive) => {
    const said = meaningOf({ seen: [{ drive, coast: markAt(0, 0) }] }, makeUpOf());
    expect(said[0]?.kind).toBe('tells-nothing');
    expect(said.map(({ kind }) => kind)).not.toContain('height');
    expect(said.map(({ kind }) => kind)).not.toContain('along-face');
    const again = repaintOf(asked({ trials: [trial({ pattern: { drive, coast: markAt(0, 0) } })] }));
    expect(said[0]?.text).toContain(again?.sentence);
  });

  test('both hold a new set to the same place and a used one to its own', () => {
    const aim = aimOf(asked());
    const saysRight = (heel: number, crown: number): boolean => {
      const said = texts({ seen: both([heel, crown], [0, 0]) }, makeUpOf());
      return /depth is about right/u.test(said) && /as a mark rolled by hand should/u.test(said);
    };
    for (const heel of [-0.23, -0.21, 0, 0.11, 0.13]) {
      for (const crown of [-0.13, -0.11, 0, 0.11, 0.13]) {
        const right = inStretch(heel, aim.drive.heel) && inStretch(crown, aim.drive.crown);
        expect(saysRight(heel, crown)).toBe(right);
      }
    }
  });
});
