import { cross, dot, minus, unit, type Vector } from '../../axle/mesh/vector.ts';

export type Pixel = readonly [x: number, y: number];

/** A pinhole with a little barrel: where a point comes to lie in the picture, and how near it is (1/mm). */
export interface Pinhole {
  readonly eye: Vector;
  see(point: Vector): readonly [x: number, y: number, nearness: number];
}

interface Held {
  readonly eye: Vector;
  readonly target: Vector;
  readonly up: Vector;
  readonly roll: number;
  /** Pixels for one unit of slope. */
  readonly focal: number;
  readonly centre: Pixel;
  /** Share by which a point one focal length aside is drawn inwards. */
  readonly barrel: number;
}

export function pinhole({ eye, target, up, roll, focal, centre, barrel }: Held): Pinhole {
  const ahead = unit(minus(target, eye));
  const right0 = unit(cross(ahead, up));
  const down0 = cross(ahead, right0);
  const [cos, sin] = [Math.cos(roll), Math.sin(roll)];
  return {
    eye,
    see(point) {
      const arm = minus(point, eye);
      const depth = dot(arm, ahead);
      const [a, b] = [dot(arm, right0) / depth, dot(arm, down0) / depth];
      const [x, y] = [a * cos - b * sin, a * sin + b * cos];
      const drawn = focal * (1 - barrel * (x * x + y * y));
      return [centre[0] + drawn * x, centre[1] + drawn * y, 1 / depth];
    },
  };
}
