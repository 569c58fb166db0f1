import type { FlankMap } from '../../../../shared/axle/mark/flankMap.ts';
import { type Edge, edgeNames } from '../../../../shared/axle/mark/mark.ts';
import type { Pixel } from '../../../../shared/axle/mark/photo.ts';
import type { Extent, PhotoFit } from './fit.ts';

interface FlankOutlineProps {
  readonly flank: FlankMap;
  readonly fit: PhotoFit;
  readonly space: Extent;
}

/** The flank as it was laid into the photo: its four edges by name. */
export const FlankOutline = ({ flank, fit, space }: FlankOutlineProps) => (
  <svg className="photo__outline" viewBox={`0 0 ${space.width} ${space.height}`} aria-hidden="true">
    {edgeNames.map((edge) => (
      <EdgeLine
        key={edge}
        edge={edge}
        points={along(edge).map(([x, y]) => fit.onScreen(flank.toPhoto(x, y)))}
        from={fit.onScreen(flank.toPhoto(0.5, 0.5))}
        space={space}
      />
    ))}
  </svg>
);

/** A place on an edge, `t` from one corner to the next: how far from the toe, how far from the root. */
export const placeOnEdge: Readonly<Record<Edge, (t: number) => Pixel>> = {
  toe: (t) => [0, t],
  heel: (t) => [1, t],
  crown: (t) => [t, 1],
  root: (t) => [t, 0],
};

const steps = 24;
const along = (edge: Edge): readonly Pixel[] =>
  Array.from({ length: steps + 1 }, (_, step) => placeOnEdge[edge](step / steps));

interface EdgeLineProps {
  readonly edge: Edge;
  readonly points: readonly Pixel[];
  /** The middle of the flank: the name stands on the other side of the edge. */
  readonly from: Pixel;
  readonly space: Extent;
}

/** Half the width and half the height that the longest name of an edge takes up. */
const wordRoom: Pixel = [26, 12];

const within = (at: number, size: number, room: number): number => Math.min(size - room, Math.max(room, at));

/** Dark within light, so that it is seen on every photo; its name stands outside, clear of the handle. */
function EdgeLine({ edge, points, from, space }: EdgeLineProps) {
  const d = points.map(([x, y], n) => `${n === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');
  const [x, y] = points[steps / 2] ?? from;
  const out = Math.hypot(x - from[0], y - from[1]) || 1;
  const gap = edge === 'toe' || edge === 'heel' ? 42 : 28;
  return (
    <>
      <path className="photo__halo" d={d} />
      <path className="photo__line" d={d} />
      <text
        className="photo__word"
        x={within(x + ((x - from[0]) / out) * gap, space.width, wordRoom[0])}
        y={within(y + ((y - from[1]) / out) * gap, space.height, wordRoom[1]) + 5}
        textAnchor="middle"
      >
        {edge}
      </text>
    </>
  );
}
