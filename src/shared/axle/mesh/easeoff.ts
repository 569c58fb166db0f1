/**
 * How far the pair is relieved from perfect conjugacy, as a quadric about its apex: ½(a u² + 2b uv + c v²), in mm,
 * u to the heel and v to the crown. The apex is where the two flanks would touch in the position they were cut for.
 */
export interface EaseOff {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** Apex from mid face and mid flank (mm); absent is 0, 0. The cutting error of a set lives here. */
  readonly apex?: { readonly u: number; readonly v: number };
}

/** A gap that is a quadric near the point looked at: height, slopes and the ease-off's curvatures. */
export interface QuadricGap {
  readonly gap: number;
  readonly slopeU: number;
  readonly slopeV: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** The contact ellipse of a quadric gap: the proxy for a mark on a flank without edges and without changeover. */
interface ContactEllipse {
  readonly centre: { readonly u: number; readonly v: number };
  readonly smallestGap: number;
  /** Smaller curvature first, so the first semi-axis is the long one. */
  readonly curvatures: readonly [number, number];
  readonly semiAxes: readonly [number, number];
  /** Long axis against the face, rad, positive when it rises towards the heel. */
  readonly slant: number;
  /** Half of the bounding box. */
  readonly halfExtents: { readonly u: number; readonly v: number };
  readonly area: number;
}

/** Where the smallest gap lies and how large the patch with gap − smallest gap ≤ `film` is. Closed form. */
export function contactEllipse(gap: QuadricGap, film: number): ContactEllipse {
  const { a, b, c, slopeU, slopeV } = gap;
  const determinant = a * c - b * b;
  const centre = { u: (b * slopeV - c * slopeU) / determinant, v: (b * slopeU - a * slopeV) / determinant };
  const spread = Math.hypot((a - c) / 2, b);
  const curvatures = [(a + c) / 2 - spread, (a + c) / 2 + spread] as const;
  return {
    centre,
    smallestGap: gap.gap + (slopeU * centre.u + slopeV * centre.v) / 2,
    curvatures,
    semiAxes: [Math.sqrt((2 * film) / curvatures[0]), Math.sqrt((2 * film) / curvatures[1])],
    slant: b === 0 && a <= c ? 0 : Math.atan2(-2 * b, c - a) / 2,
    halfExtents: { u: Math.sqrt((2 * film * c) / determinant), v: Math.sqrt((2 * film * a) / determinant) },
    area: (2 * Math.PI * film) / Math.sqrt(determinant),
  };
}

/** The curvature that leaves a mark of this half-length (mm) with this film (mm): 2·film/half². */
export const curvatureFromMark = (film: number, half: number): number => (2 * film) / (half * half);

/** The ease-off's height at a place. */
export function easeoffAt(easeoff: EaseOff, u: number, v: number): number {
  const du = u - (easeoff.apex?.u ?? 0);
  const dv = v - (easeoff.apex?.v ?? 0);
  return (easeoff.a * du * du + 2 * easeoff.b * du * dv + easeoff.c * dv * dv) / 2;
}
