import type { Edge, Mark } from '../assembled.ts';
import type { FlankFrame } from './flankFrame.ts';
import { paintedPlaces, type PaintedFlank, type PaintedPlace } from './paint.ts';

/**
 * Describes what the film shows on one flank (docs/signs-and-units.md): centroid, extents, slant and edges.
 * @param film_mm thickness of the compound
 */
export function describeMark(flank: PaintedFlank, frame: FlankFrame, film_mm: number): Mark {
  const places = paintedPlaces(flank, frame, film_mm);
  const centre = centroid(places);
  return {
    heel: centre.heel,
    crown: centre.crown,
    length: extent(flank, film_mm, 'heel'),
    height: extent(flank, film_mm, 'crown'),
    slant_deg: slant(places),
    edges: {
      toe: edge(
        closest(flank, (i) => i === 0),
        film_mm,
      ),
      heel: edge(
        closest(flank, (i) => i === flank.heels.length - 1),
        film_mm,
      ),
      crown: edge(
        closest(flank, (_, j) => j === flank.crowns.length - 1),
        film_mm,
      ),
      root: edge(closestAtRoot(flank), film_mm),
    },
  };
}

function mean(places: readonly PaintedPlace[], of: (place: PaintedPlace) => number): number {
  let [sum, area] = [0, 0];
  for (const place of places) {
    sum += of(place) * place.area;
    area += place.area;
  }
  return sum / area;
}

const centroid = (places: readonly PaintedPlace[]) => ({
  heel: mean(places, (place) => place.heel),
  crown: mean(places, (place) => place.crown),
});

/** Direction of the long axis of the painted area on the flank as it lies, degrees. */
function slant(places: readonly PaintedPlace[]): number {
  const [u, v] = [mean(places, (p) => p.u_mm), mean(places, (p) => p.v_mm)];
  const uu = mean(places, (p) => (p.u_mm - u) ** 2);
  const vv = mean(places, (p) => (p.v_mm - v) ** 2);
  const uv = mean(places, (p) => (p.u_mm - u) * (p.v_mm - v));
  return (Math.atan2(2 * uv, uu - vv) * 90) / Math.PI;
}

/** Full extent of the film's edge along one direction, as a fraction of the flank, read between grid places. */
function extent(flank: PaintedFlank, film_mm: number, direction: 'heel' | 'crown'): number {
  const across = flank.heels.length;
  const positions = direction === 'heel' ? flank.heels : flank.crowns;
  const lines = direction === 'heel' ? flank.crowns.length : across;
  let [low, high] = [Infinity, -Infinity];
  for (let line = 0; line < lines; line += 1) {
    const at = (n: number) => (direction === 'heel' ? line * across + n : n * across + line);
    for (let n = 0; n < positions.length; n += 1) {
      if (!((flank.gap[at(n)] as number) <= film_mm)) continue;
      low = Math.min(low, crossing(flank.gap[at(n)], flank.gap[at(n - 1)], positions[n], positions[n - 1], film_mm));
      high = Math.max(high, crossing(flank.gap[at(n)], flank.gap[at(n + 1)], positions[n], positions[n + 1], film_mm));
    }
  }
  return high > low ? high - low : 0;
}

/** Where the gap passes the film between a painted place and its neighbour; the place itself at the flank's edge. */
function crossing(inside = 0, outside = Number.NaN, here = 0, there: number | undefined, film_mm: number): number {
  if (there === undefined || !Number.isFinite(outside) || outside <= film_mm) return here;
  return here + ((film_mm - inside) / (outside - inside)) * (there - here);
}

/** Smallest gap over the places on an edge, mm. */
function closest(flank: PaintedFlank, on: (i: number, j: number) => boolean): number {
  const across = flank.heels.length;
  return flank.gap.reduce((least, gap, k) => {
    return on(k % across, Math.floor(k / across)) ? Math.min(least, gap) : least;
  }, Infinity);
}

/** Smallest gap along the lower edge of what meets: the visible root, or where the pinion's tip ends above it. */
function closestAtRoot(flank: PaintedFlank): number {
  const across = flank.heels.length;
  const lowest = flank.heels.map((_, i) => {
    const column = flank.crowns.map((_, j) => flank.gap[j * across + i] as number);
    return column.find(Number.isFinite) ?? Infinity;
  });
  return Math.min(...lowest);
}

/** Below this share of the film the compound is squeezed away right up to the edge, which then shows as a sharp line. */
const SHARP = 0.5;

/** How a mark meets an edge, from the smallest gap there. */
function edge(gap_mm: number, film_mm: number): Edge {
  if (gap_mm > film_mm) return 'clear';
  return gap_mm > SHARP * film_mm ? 'feathered' : 'hard';
}
