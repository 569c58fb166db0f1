import { annulus, box, clockPoint, line, polygon, polyline } from '../paths.ts';
import { circle, type Element, path, type Point, text } from '../scene.ts';
import { arrow, centred, dial, label, ringGear, toAndFro, turning } from './parts.ts';

/** What is looked at and answered with yes or no, and what is felt or read where no gauge is. */
export const seenPictures = [
  'caps',
  'sleeve',
  'nut',
  'clips',
  'slip',
  'oil',
  'rock',
  'play',
  'numbers',
  'tighten',
] as const;
type SeenPicture = (typeof seenPictures)[number];

const metal = { fill: 'metal', stroke: 'line', width: 1.5 } as const;

/** A bearing cap on its saddle, seen along the axis, both punched with as many dots. */
function cap(x: number, dots: number): readonly Element[] {
  const punched = Array.from({ length: dots }, (_, dot) => [
    circle({ x: x + 52 + dot * 9, y: 96 }, 3, { fill: 'accent' }),
    circle({ x: x + 52 + dot * 9, y: 122 }, 3, { fill: 'accent' }),
  ]);
  return [
    path(`M${x - 72} 110L${x - 72} 186L${x + 72} 186L${x + 72} 110L${x + 34} 110A34 34 0 0 1 ${x - 34} 110Z`, metal),
    path(
      `M${x - 72} 106L${x - 72} 84L${x - 50} 84A56 56 0 0 1 ${x + 50} 84L${x + 72} 84L${x + 72} 106L${x + 34} 106A34 34 0 0 0 ${x - 34} 106Z`,
      metal,
    ),
    path(box(x - 70, 72, 18, 12) + box(x + 52, 72, 18, 12), { fill: 'surface', stroke: 'line' }),
    ...punched.flat(),
  ];
}

/** A nut seen from its end, with the thread in it. */
function nut(x: number): readonly Element[] {
  const corners = Array.from({ length: 6 }, (_, corner) => clockPoint({ x, y: 92 }, 50, corner * 60));
  return [path(polygon(corners), metal), circle({ x, y: 92 }, 24, { fill: 'ground', stroke: 'line', width: 1.5 })];
}

const under = (words: string, x: number): Element => centred(words, { x, y: 176 });

/** A wheel seen from behind. */
const wheel = (x: number): Element => path(box(x, 62, 40, 96), { fill: 'metal', stroke: 'text', width: 2 });

const gear: Point = { x: 130, y: 110 };

export const seenDrawings: Readonly<Record<SeenPicture, readonly Element[]>> = {
  caps: [
    ...cap(104, 1),
    ...cap(300, 2),
    under('one side', 104),
    under('the other side', 300),
    label('cap and housing alike, and which way is up', { x: 90, y: 212 }),
  ],
  sleeve: [
    path('M60 60L130 60C150 92 150 128 130 160L60 160C40 128 40 92 60 60Z', metal),
    path(line({ x: 36, y: 172 }, { x: 154, y: 48 }), { stroke: 'text', width: 3 }),
    path(box(220, 54, 64, 112), metal),
    path(
      polygon([312, 330, 366, 384, 366, 330].map((x, at) => ({ x, y: [110, 80, 80, 110, 140, 140][at] ?? 110 }))),
      metal,
    ),
    circle({ x: 348, y: 110 }, 17, { fill: 'ground', stroke: 'line', width: 1.5 }),
    centred('crushed once: never again', { x: 95, y: 192 }),
    centred('sleeve and nut, both new', { x: 302, y: 192 }),
  ],
  nut: [
    ...nut(76),
    path(
      polygon([
        { x: 66, y: 66 },
        { x: 86, y: 66 },
        { x: 76, y: 82 },
      ]),
      { fill: 'accent' },
    ),
    under('staked into the groove', 76),
    ...nut(210),
    path(
      line({ x: 150, y: 92 }, { x: 262, y: 92 }) +
        polyline([
          { x: 262, y: 92 },
          { x: 268, y: 78 },
        ]) +
        polyline([
          { x: 262, y: 92 },
          { x: 268, y: 106 },
        ]),
      { stroke: 'accent', width: 4, cap: 'round' },
    ),
    under('pinned', 210),
    ...nut(344),
    path(annulus({ x: 344, y: 92 }, 24, 31), { fill: 'accent' }),
    under('locks by itself, new', 344),
  ],
  clips: [
    path(box(100, 40, 220, 140), { fill: 'surface', stroke: 'line', width: 1.5 }),
    path(box(20, 98, 170, 24) + box(230, 98, 170, 24), metal),
    path(box(198, 40, 24, 140), metal),
    path(line({ x: 222, y: 74 }, { x: 318, y: 74 }), { stroke: 'accent', width: 4 }),
    path(box(166, 86, 9, 48) + box(245, 86, 9, 48), { fill: 'accent' }),
    label('its bolt or pin', { x: 232, y: 62 }),
    label('clip', { x: 134, y: 152 }),
    label('clip', { x: 264, y: 152 }),
    centred('cross pin', { x: 210, y: 200 }),
  ],
  slip: [
    path(box(74, 102, 272, 16), metal),
    circle({ x: 210, y: 110 }, 40, metal),
    wheel(34),
    wheel(346),
    path(line({ x: 10, y: 188 }, { x: 410, y: 188 }), { stroke: 'line', width: 2 }),
    ...turning({ x: 366, y: 110 }, 34, 290, 430),
    centred('held', { x: 54, y: 48 }),
    centred('turned by hand', { x: 360, y: 48 }),
    centred('both wheels off the floor, engine off', { x: 210, y: 208 }),
  ],
  oil: [
    path('M90 60L250 60L290 110L250 190L90 190L60 110Z', { fill: 'surface', stroke: 'line', width: 1.5 }),
    path('M62 116L286 116L250 190L90 190Z', { fill: 'band' }),
    path(line({ x: 62, y: 116 }, { x: 286, y: 116 }), { stroke: 'text', width: 2 }),
    path(box(278, 100, 26, 16), { fill: 'accent' }),
    path(box(150, 36, 14, 24), metal),
    label('breather free', { x: 172, y: 48 }),
    label('level and oil', { x: 304, y: 122 }),
    label('as the maker says', { x: 304, y: 138 }),
  ],
  rock: [
    ...ringGear(gear, 88),
    ...toAndFro({ x: 130, y: 6 }, { x: 130, y: 62 }),
    ...toAndFro({ x: 24, y: 110 }, { x: 88, y: 110 }),
    label('up and down, to and fro:', { x: 248, y: 92 }),
    label('nothing may knock', { x: 248, y: 110 }),
  ],
  play: [
    path(box(60, 40, 20, 140) + box(240, 40, 20, 140), metal),
    path(box(80, 66, 160, 88), { fill: 'metal', stroke: 'text', width: 2 }),
    path(box(40, 96, 20, 28) + box(260, 96, 20, 28), metal),
    ...dial({ x: 352, y: 110 }, { x: 282, y: 110 }),
    ...toAndFro({ x: 104, y: 110 }, { x: 216, y: 110 }),
    label('push, hold, pull, hold', { x: 98, y: 204 }),
    label('in line with the axis', { x: 294, y: 166 }),
  ],
  numbers: [
    circle({ x: 96, y: 104 }, 62, metal),
    circle({ x: 96, y: 104 }, 44, { fill: 'surface', stroke: 'line' }),
    text('27', { x: 96, y: 113 }, 26, { weight: 600, anchor: 'middle' }),
    ...ringGear({ x: 300, y: 104 }, 88),
    text('27', { x: 300, y: 50 }, 16, { weight: 600, anchor: 'middle' }),
    arrow({ x: 168, y: 104 }, { x: 204, y: 104 }),
    arrow({ x: 204, y: 104 }, { x: 168, y: 104 }),
    centred('on the pinion head', { x: 96, y: 212 }),
    centred('the same on the ring gear', { x: 300, y: 212 }),
  ],
  tighten: [
    path(box(40, 92, 170, 36), metal),
    path(box(200, 52, 24, 116), metal),
    path(box(228, 84, 28, 52), { fill: 'surface', stroke: 'text', width: 2 }),
    path(line({ x: 212, y: 168 }, { x: 212, y: 214 }), { stroke: 'text', width: 8 }),
    ...turning({ x: 270, y: 110 }, 46, 20, 160),
    label('flange held', { x: 226, y: 204 }),
    label('nut turned', { x: 328, y: 114 }),
  ],
};

export const seenDescribed: Readonly<Record<SeenPicture, string>> = {
  caps: 'Two bearing caps on their saddles: one dot on cap and housing at one side, two dots at the other.',
  sleeve: 'A crushed sleeve, struck out, beside a straight new one with a new nut.',
  nut: 'Three nuts from their ends: one staked into a groove, one with a pin through it, one that locks by itself.',
  clips: 'A differential case from the side: the cross pin with its bolt, and a clip at the inner end of each shaft.',
  slip: 'An axle from behind, both wheels off the floor: one is held, the other turned by hand.',
  oil: 'A housing from the side, filled to the plug the maker names, its breather free.',
  rock: 'A ring gear seen from its teeth, rocked up and down and to and fro by hand.',
  play: 'A case between its bearings, pushed and pulled in line with its axis, the stem of an indicator at its end.',
  tighten: 'A pinion from the side: its flange is held while the nut is turned.',
  numbers: 'A pinion head and a ring gear with the same set number.',
};
