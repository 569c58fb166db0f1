import { boltCircle } from '../boltCircle.ts';
import { box, clockPoint, line, polygon } from '../paths.ts';
import { circle, type Element, path, type Scene } from '../scene.ts';
import { dial, height, label, ringGear, turning, width } from './parts.ts';
import { seenDescribed, seenDrawings, seenPictures } from './seen.ts';

/** Our own drawings of how a thing is taken: not to scale, and of no maker's axle. */
const takenPictures = ['backlash', 'runout', 'torque', 'bolts', 'feeler', 'shims', 'notches', 'mark'] as const;
export const helpPictures = [...takenPictures, ...seenPictures] as const;
export type HelpPicture = (typeof helpPictures)[number];

const gearAt = { x: 120, y: 110 };

const drawings: Readonly<Record<Exclude<HelpPicture, 'bolts'>, readonly Element[]>> = {
  ...seenDrawings,
  backlash: [
    ...ringGear(gearAt, 92),
    // Along the tangent of the tooth it stands on: in line with the turn.
    ...dial({ x: 242, y: 146 }, { x: 196, y: 66 }),
    ...turning(gearAt, 102, 10, 48),
    label('stem near the heel,', { x: 282, y: 88 }),
    label('in line with the turn', { x: 282, y: 106 }),
    label('pinion held', { x: 282, y: 200 }),
  ],
  runout: [
    path(box(90, 30, 16, 160), { fill: 'metal', stroke: 'line' }),
    path(
      polygon([
        { x: 106, y: 40 },
        { x: 140, y: 62 },
        { x: 140, y: 158 },
        { x: 106, y: 180 },
      ]),
      {
        fill: 'metal',
        stroke: 'line',
      },
    ),
    path(line({ x: 20, y: 110 }, { x: 210, y: 110 }), { stroke: 'line', dash: [10, 5, 2, 5] }),
    ...dial({ x: 32, y: 52 }, { x: 88, y: 52 }),
    ...turning({ x: 125, y: 110 }, 88, 40, 130),
    label('stem square to the back face', { x: 224, y: 60 }),
    label('one slow turn, or stations', { x: 224, y: 80 }),
  ],
  torque: [
    path(box(60, 92, 150, 36), { fill: 'metal', stroke: 'line' }),
    path(box(200, 70, 26, 80), { fill: 'metal', stroke: 'line' }),
    ...turning({ x: 252, y: 110 }, 46, 20, 160),
    path(line({ x: 226, y: 110 }, { x: 252, y: 110 }), { stroke: 'text', width: 6 }),
    label('steadily, through', { x: 312, y: 104 }),
    label('whole turns', { x: 312, y: 122 }),
  ],
  feeler: [
    path(box(40, 110, 220, 60), { fill: 'metal', stroke: 'line' }),
    path(box(40, 44, 220, 60), { fill: 'surface', stroke: 'line' }),
    path(
      polygon([
        { x: 262, y: 107 },
        { x: 380, y: 96 },
        { x: 380, y: 118 },
      ]),
      { fill: 'accent' },
    ),
    label('part', { x: 56, y: 80 }),
    label('its seat', { x: 56, y: 146 }),
    label('it must not enter', { x: 280, y: 142 }),
  ],
  shims: [
    ...[0, 1, 2, 3].map((shim) => path(box(70, 70 + shim * 20, 150, 12 - shim * 2), { fill: 'metal', stroke: 'text' })),
    path(line({ x: 145, y: 20 }, { x: 145, y: 64 }), { stroke: 'accent', width: 4 }),
    path(line({ x: 145, y: 198 }, { x: 145, y: 150 }), { stroke: 'accent', width: 4 }),
    label('squeezed flat,', { x: 240, y: 104 }),
    label('measured as one pack', { x: 240, y: 122 }),
  ],
  notches: [
    circle(gearAt, 84, { fill: 'metal', stroke: 'line' }),
    path(
      Array.from({ length: 24 }, (_, notch) =>
        line(clockPoint(gearAt, 70, notch * 15), clockPoint(gearAt, 84, notch * 15)),
      ).join(''),
      { stroke: 'text', width: 3 },
    ),
    ...turning(gearAt, 98, 20, 65),
    path(box(112, 4, 16, 30), { fill: 'accent' }),
    label('the lock fits a notch,', { x: 240, y: 84 }),
    label('never between two', { x: 240, y: 102 }),
    label('end on tightening', { x: 240, y: 142 }),
  ],
  mark: [
    path(
      polygon([
        { x: 30, y: 150 },
        { x: 30, y: 70 },
        { x: 390, y: 40 },
        { x: 390, y: 170 },
      ]),
      {
        fill: 'metal',
        stroke: 'line',
      },
    ),
    path('M110 112 C120 82 250 74 290 104 C300 136 150 146 110 112 Z', { fill: 'mark', opacity: 0.75 }),
    label('toe', { x: 32, y: 186 }),
    label('heel', { x: 360, y: 192 }),
    label('crown', { x: 190, y: 42 }),
    label('root', { x: 196, y: 180 }),
  ],
};

const described: Readonly<Record<HelpPicture, string>> = {
  ...seenDescribed,
  backlash:
    'A ring gear seen from its teeth; the stem of an indicator stands on a tooth near the heel, in line with the turn.',
  runout: 'A ring gear from the side; the stem of an indicator stands square on its back face while it turns once.',
  torque: 'A pinion from the side, turned steadily at its flange.',
  bolts: 'Ten bolts with their turns in a cross sequence.',
  feeler: 'A feeler offered to the joint between a part and its seat; it must not enter.',
  shims: 'Four shims squeezed flat between two jaws and measured as one pack.',
  notches: 'An adjuster with its notches; its lock sits in one of them.',
  mark: 'A tooth flank from toe to heel with the mark in its middle.',
};

/** The drawing for a way of taking something. */
export function helpPicture(name: HelpPicture): Scene {
  if (name === 'bolts') return { ...boltCircle(10), description: described.bolts };
  return { width, height, title: 'How it is taken', description: described[name], elements: drawings[name] };
}
