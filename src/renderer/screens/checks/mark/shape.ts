import type { Edge, EdgeContact, Mark } from '../../../../shared/axle/mark/mark.ts';
import { edgeNames } from '../../../../shared/axle/mark/mark.ts';
import { type FlankGeometry, type FlankPlace, heightAt } from '../../../../shared/presentation/drawing/flankShape.ts';

/** A mark as it comes to lie when a flank is touched first: middling in every way, to be dragged into shape. */
export const freshMark = ({ heel, crown }: FlankPlace): Mark =>
  withEdges({
    heel: kept(heel),
    crown: kept(crown),
    length: 0.5,
    height: 0.5,
    slant_deg: 0,
    edges: { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' },
  });

const kept = (fraction: number): number => Math.round(clamp(fraction, -0.5, 0.5) * 100) / 100;
const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** Smallest extent that can be drawn, and the steepest slant; beyond it the long axis is the other one. */
const leastExtent = 0.06;
const steepest_deg = 45;

export const moved = (mark: Mark, to: FlankPlace): Mark =>
  withEdges({ ...mark, heel: kept(to.heel), crown: kept(to.crown) });

export const lengthened = (mark: Mark, length: number): Mark =>
  withEdges({ ...mark, length: Math.round(clamp(length, leastExtent, 1) * 100) / 100 });

export const heightened = (mark: Mark, height: number): Mark =>
  withEdges({ ...mark, height: Math.round(clamp(height, leastExtent, 1) * 100) / 100 });

export const slanted = (mark: Mark, slant_deg: number): Mark => ({
  ...mark,
  slant_deg: Math.round(clamp(slant_deg, -steepest_deg, steepest_deg)),
});

/** How far the mark lies from each edge; nothing or less means that it reaches it. */
const room: Readonly<Record<Edge, (mark: Mark) => number>> = {
  toe: (mark) => mark.heel - mark.length / 2 + 0.5,
  heel: (mark) => 0.5 - mark.heel - mark.length / 2,
  root: (mark) => mark.crown - mark.height / 2 + 0.5,
  crown: (mark) => 0.5 - mark.crown - mark.height / 2,
};

/** An edge that is reached is feathered until somebody calls it hard, one that is not reached is clear. */
function withEdges(mark: Mark): Mark {
  const contact = (edge: Edge): EdgeContact => {
    if (room[edge](mark) > 0.005) return 'clear';
    return mark.edges[edge] === 'hard' ? 'hard' : 'feathered';
  };
  const edges = Object.fromEntries(edgeNames.map((edge) => [edge, contact(edge)])) as Mark['edges'];
  return { ...mark, edges };
}

const after: Readonly<Record<EdgeContact, EdgeContact>> = { clear: 'feathered', feathered: 'hard', hard: 'clear' };

/** Calls an edge the next thing it can be; what is called outweighs what was drawn. */
export const recalled = (mark: Mark, edge: Edge): Mark => ({
  ...mark,
  edges: { ...mark.edges, [edge]: after[mark.edges[edge]] },
});

/** Where the end of the long axis is drawn, and what a point dragged there makes of length and slant. */
export const endOf = (mark: Mark, geometry: FlankGeometry): FlankPlace => {
  const run = (mark.length / 2) * geometry.length;
  const rise = Math.tan((mark.slant_deg * Math.PI) / 180) * run;
  return { heel: mark.heel + mark.length / 2, crown: mark.crown + rise / heightAt(geometry, mark.heel) };
};

export function endDragged(mark: Mark, to: FlankPlace, geometry: FlankGeometry): Mark {
  const half = Math.max(to.heel - mark.heel, leastExtent / 2);
  const rise = (to.crown - mark.crown) * heightAt(geometry, mark.heel);
  const slant = (Math.atan2(rise, half * geometry.length) * 180) / Math.PI;
  return slanted(lengthened(mark, half * 2), slant);
}

export const topOf = (mark: Mark): FlankPlace => ({ heel: mark.heel, crown: mark.crown + mark.height / 2 });

export const topDragged = (mark: Mark, to: FlankPlace): Mark => heightened(mark, (to.crown - mark.crown) * 2);
