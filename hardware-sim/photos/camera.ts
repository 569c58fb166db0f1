import { along, cross, dot, minus, plus, unit, type Vector } from '../axle/mesh/vector.ts';

/** Pixels of the upright photo, from its upper left corner to the right and down. */
export type Pixel = readonly [number, number];

/** A camera without distortion. */
export interface Camera {
  readonly width: number;
  readonly height: number;
  /** Picture place and distance in front of the camera, mm. */
  see(point: Vector): { readonly at: Pixel; readonly depth_mm: number };
  readonly eye: Vector;
}

interface View {
  readonly width: number;
  readonly height: number;
  readonly target: Vector;
  /** Unit vector from the target to the eye. */
  readonly from: Vector;
  readonly distance_mm: number;
  /** What is up in the picture, roughly. */
  readonly up: Vector;
  /** How the camera is turned about its own axis, rad. */
  readonly roll_rad: number;
  /** Picture pixels for one mm at the target. */
  readonly scale: number;
  /** Where the target lies in the picture. */
  readonly centre: Pixel;
}

/** Sets a camera up so that the target appears where and as large as wanted. */
export function setUpCamera(view: View): Camera {
  const eye = plus(view.target, along(view.from, view.distance_mm));
  const right0 = unit(cross(view.up, view.from));
  const up0 = cross(view.from, right0);
  const [cos, sin] = [Math.cos(view.roll_rad), Math.sin(view.roll_rad)];
  const right = plus(along(right0, cos), along(up0, sin));
  const up = plus(along(up0, cos), along(right0, -sin));
  const focal = view.scale * view.distance_mm;
  const see = (point: Vector) => {
    const arm = minus(point, eye);
    const depth_mm = -dot(arm, view.from);
    const at: Pixel = [
      view.centre[0] + (focal * dot(arm, right)) / depth_mm,
      view.centre[1] - (focal * dot(arm, up)) / depth_mm,
    ];
    return { at, depth_mm };
  };
  return { width: view.width, height: view.height, see, eye };
}
