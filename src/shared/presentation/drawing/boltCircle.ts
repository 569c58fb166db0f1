import { boltSequence } from '../../axle/arithmetic/boltSequence.ts';
import { circle, type Element, type Scene, text } from './scene.ts';

/** Side of the picture in scene units. */
const side = 300;
const middle = side / 2;
const pitchRadius = 108;

/** The flange of the ring gear with its bolts, each with its turn in the order of tightening. */
export function boltCircle(bolts: number): Scene {
  const order = boltSequence(bolts);
  const boltRadius = Math.min(21, (Math.PI * pitchRadius) / bolts - 3);
  const drawn = order.flatMap((place, turn) => bolt({ place, turn, bolts, boltRadius }));
  return {
    width: side,
    height: side,
    title: `${bolts} ring gear bolts, in the order of tightening`,
    description: `Clockwise from the top, the bolts are tightened as number ${clockwise(order).join(', ')}.`,
    elements: [
      circle({ x: middle, y: middle }, 144, { fill: 'metal', stroke: 'line' }),
      circle({ x: middle, y: middle }, 70, { fill: 'ground', stroke: 'line' }),
      ...drawn,
    ],
  };
}

interface Bolt {
  readonly place: number;
  readonly turn: number;
  readonly bolts: number;
  readonly boltRadius: number;
}

function bolt({ place, turn, bolts, boltRadius }: Bolt): readonly Element[] {
  const angle = (2 * Math.PI * place) / bolts;
  const at = { x: middle + pitchRadius * Math.sin(angle), y: middle - pitchRadius * Math.cos(angle) };
  const size = Math.min(20, boltRadius * 1.1);
  return [
    circle(at, boltRadius, { fill: 'surface', stroke: 'text', width: 1.5 }),
    text(String(turn + 1), { x: at.x, y: at.y + size * 0.36 }, size, { anchor: 'middle', weight: 600, tabular: true }),
  ];
}

/** The turn of each bolt, going round clockwise from the top. */
const clockwise = (order: readonly number[]): readonly number[] => order.map((_, place) => order.indexOf(place) + 1);
