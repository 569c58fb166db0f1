import type { Angle, Length } from '../../basics/quantity.ts';
import type { Flank } from '../mark/mark.ts';
import { cross, dot, type Vector, unit } from './vector.ts';
import { type Frame, placeChange, placeOn } from './frame.ts';

/** What was cut: one flank of the ring gear as the cutter left it. */
export interface FlankCut {
  readonly frame: Frame;
  readonly flank: Flank;
  /** This flank's own angle: of its normal to the pitch plane, at the mean point. */
  readonly pressureAngle: Angle;
  readonly cutterRadius: Length;
}

/** A point of the surface with its two tangents: along the cut and up the blade. */
interface SurfacePoint {
  readonly point: Vector;
  readonly along: Vector;
  readonly up: Vector;
}

/** A flank as a surface of two parameters: angle of the cutter (rad) and height along its axis (mm). */
export type Surface = (angle: number, height: number) => SurfacePoint;

/** A point of the flank with the normal that leads out of the ring gear's tooth. */
export interface FlankPoint {
  readonly point: Vector;
  readonly normal: Vector;
}

/** The outside blades leave the concave flank, the inside blades the convex one: the cone opens or closes upwards. */
export const opening = (flank: Flank): 1 | -1 => (flank === 'concave' ? 1 : -1);

/** Finds the flank point at place (u, v), by Newton from the nearest parameters known. */
export class FlankFinder {
  readonly #surface: Surface;
  readonly #frame: Frame;
  readonly #side: number;
  #angle = 0;
  #height = 0;

  constructor(surface: Surface, frame: Frame) {
    this.#surface = surface;
    this.#frame = frame;
    const { along, up } = surface(0, 0);
    this.#side = dot(cross(along, up), frame.up) > 0 ? 1 : -1;
  }

  /** @returns undefined where the cutter does not reach the place, so that the blank itself is impossible. */
  at(u: number, v: number): FlankPoint | undefined {
    for (let pass = 0; pass < 30; pass += 1) {
      const here = this.#surface(this.#angle, this.#height);
      const [hereU, hereV] = placeOn(this.#frame, here.point);
      const [missU, missV] = [u - hereU, v - hereV];
      if (Math.abs(missU) + Math.abs(missV) < 1e-10) return { point: here.point, normal: this.#normal(here) };
      if (!this.#step(here, missU, missV)) break;
    }
    [this.#angle, this.#height] = [0, 0];
    return undefined;
  }

  #normal(here: SurfacePoint): Vector {
    const across = unit(cross(here.along, here.up));
    return [this.#side * across[0], this.#side * across[1], this.#side * across[2]];
  }

  #step(here: SurfacePoint, missU: number, missV: number): boolean {
    const [alongU, alongV] = placeChange(this.#frame, here.point, here.along);
    const [upU, upV] = placeChange(this.#frame, here.point, here.up);
    const determinant = alongU * upV - upU * alongV;
    this.#angle += (missU * upV - upU * missV) / determinant;
    this.#height += (alongU * missV - alongV * missU) / determinant;
    return Math.abs(this.#angle) < 1.5 && Number.isFinite(this.#height);
  }
}
