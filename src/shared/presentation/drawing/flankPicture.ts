import { type Edge, edgeNames, isBound, type Mark } from '../../axle/mark/mark.ts';
import type { FlankView, TargetZone } from './flanksInput.ts';
import { type FlankGeometry, type FlankPlace, levelLine, patch, pointAt } from './flankShape.ts';
import { hatch } from './hatch.ts';
import { markContours, markOutline } from './markShape.ts';
import { line, polygon, polyline } from './paths.ts';
import { type Anchor, type Element, path, pen, type Point, text } from './scene.ts';

/** One flank, from the metal up: target zone, mark, mark as found, planned mark, names of the edges. */
export function flankElements(
  view: FlankView,
  geometry: FlankGeometry,
  letter: number,
  names: 'none' | EndNames = 'beside',
): readonly Element[] {
  return [
    ...bodyElements(geometry, letter),
    ...scaleElements(geometry, letter),
    ...(view.target === undefined ? [] : targetElements(view.target, geometry, letter)),
    ...(view.seen === undefined ? [] : seenElements(view.seen, geometry)),
    ...(view.found === undefined ? [] : foundElements(view.found, geometry, letter)),
    ...(view.planned === undefined ? [] : plannedElements(view.planned, geometry, letter)),
    path(polygon(patch(geometry, [-0.5, 0.5], [-0.5, 0.5])), { stroke: 'line', width: pen(letter, 1.5) }),
    ...(view.seen === undefined ? [] : hardLines(view.seen, geometry, letter)),
    ...(view.seen === undefined ? [] : centreElements(view.seen, geometry, letter)),
    ...(names === 'none' ? [] : edgeWords(geometry, letter, names)),
  ];
}

/** The flank, the top land above its crown and the fillet below its root, which make a tooth of it. */
function bodyElements(geometry: FlankGeometry, letter: number): readonly Element[] {
  const land = patch(geometry, [-0.5, 0.5], [0.5, 0.6]);
  const fillet = levelLine(geometry, -0.58);
  return [
    path(polygon(land), { fill: 'surface', stroke: 'faint', width: pen(letter) }),
    path(polygon(patch(geometry, [-0.5, 0.5], [-0.5, 0.5])), { fill: 'metal' }),
    path(polyline(fillet), { stroke: 'faint', width: pen(letter) }),
  ];
}

/** Mid face and mid height as hairlines with ticks at a quarter of the flank, so that a mark's place can be read off. */
function scaleElements(geometry: FlankGeometry, letter: number): readonly Element[] {
  const tick = (letter * 0.35) / geometry.height;
  const along = (letter * 0.35) / geometry.length;
  const at = (heel: number, crown: number): Point => pointAt(geometry, { heel, crown });
  const ticks = [-0.25, 0.25].flatMap((quarter) => [
    line(at(quarter, -tick), at(quarter, tick)),
    line(at(-along, quarter), at(along, quarter)),
  ]);
  return [
    path(polyline(levelLine(geometry, 0)) + line(at(0, -0.5), at(0, 0.5)), { stroke: 'faint', width: pen(letter) }),
    path(ticks.join(''), { stroke: 'line', width: pen(letter) }),
  ];
}

function targetElements(zone: TargetZone, geometry: FlankGeometry, letter: number): readonly Element[] {
  const outline = patch(geometry, zone.heel, zone.crown);
  return [
    path(hatch(outline, 45, letter * 0.42), { stroke: 'target', width: pen(letter, 0.8), opacity: 0.75 }),
    path(polygon(outline), { stroke: 'target', width: pen(letter, 0.8) }),
  ];
}

const aspectOf = (geometry: FlankGeometry): number => geometry.length / geometry.height;

function seenElements(mark: Mark, geometry: FlankGeometry): readonly Element[] {
  return markContours(mark, aspectOf(geometry)).map(({ outline, opacity }) =>
    path(polygon(outline.map((place) => pointAt(geometry, place))), { fill: 'mark', opacity }),
  );
}

/** A hard edge is a line of compound along the tooth's edge; it is what a technician looks for first. */
function hardLines(mark: Mark, geometry: FlankGeometry, letter: number): readonly Element[] {
  const outline = markOutline(mark, aspectOf(geometry));
  return edgeNames
    .filter((edge) => mark.edges[edge] === 'hard')
    .map((edge) => outline.filter((place) => liesOn(place, edge)).map((place) => pointAt(geometry, place)))
    .map((points) => path(polyline(longest(points)), { stroke: 'mark', width: pen(letter, 4), cap: 'round' }));
}

const onEdge: Readonly<Record<Edge, (place: FlankPlace) => number>> = {
  toe: ({ heel }) => heel + 0.5,
  heel: ({ heel }) => heel - 0.5,
  root: ({ crown }) => crown + 0.5,
  crown: ({ crown }) => crown - 0.5,
};

const liesOn = (place: FlankPlace, edge: Edge): boolean => Math.abs(onEdge[edge](place)) < 1e-9;

/** The two points furthest apart and those between them, in order along the edge. */
const longest = (points: readonly Point[]): readonly Point[] => [...points].sort((a, b) => a.x - b.x || a.y - b.y);

const outlined = (mark: Mark, geometry: FlankGeometry): string =>
  polygon(markOutline(mark, aspectOf(geometry)).map((place) => pointAt(geometry, place)));

const foundElements = (mark: Mark, geometry: FlankGeometry, letter: number): readonly Element[] => [
  path(outlined(mark, geometry), { stroke: 'mark-found', width: pen(letter, 1.3) }),
];

/** The planned outline and its centre, which is what the target zone is for. */
const plannedElements = (mark: Mark, geometry: FlankGeometry, letter: number): readonly Element[] => {
  const [along, up] = cross(mark, geometry, letter, { heel: 0, crown: 0 });
  return [
    path(outlined(mark, geometry), { stroke: 'plan', width: pen(letter, 2), dash: [pen(letter, 7), pen(letter, 5)] }),
    path(along + up, { stroke: 'plan', width: pen(letter, 2) }),
  ];
};

/** A cross at the mark's centre, as wide as the place is unsure; dotted in a direction where it is only a bound. */
function centreElements(mark: Mark, geometry: FlankGeometry, letter: number): readonly Element[] {
  const [along, up] = cross(mark, geometry, letter, mark.U95 ?? { heel: 0, crown: 0 });
  const arm = (d: string, bound: boolean): Element =>
    path(d, {
      stroke: 'surface',
      width: pen(letter, 2.2),
      ...(bound ? { dash: [pen(letter, 2), pen(letter, 2.5)] } : {}),
    });
  return [arm(along, isBound(mark, 'heel')), arm(up, isBound(mark, 'crown'))];
}

/** The two arms of a cross through a mark's centre, each as long as asked for and never too short to be seen. */
function cross(
  { heel, crown }: Mark,
  geometry: FlankGeometry,
  letter: number,
  reach: { readonly heel: number; readonly crown: number },
): readonly [string, string] {
  const along = Math.max(reach.heel, (letter * 0.55) / geometry.length);
  const up = Math.max(reach.crown, (letter * 0.55) / geometry.height);
  const at = (place: FlankPlace): Point => pointAt(geometry, place);
  return [
    line(at({ heel: heel - along, crown }), at({ heel: heel + along, crown })),
    line(at({ heel, crown: crown - up }), at({ heel, crown: crown + up })),
  ];
}

/** Where toe and heel are named: beside their edges, lower there where the flank's name stands above them, or below the corners. */
type EndNames = 'beside' | 'lower' | 'below';

/** Toe, heel, crown and root in words at their edges. */
function edgeWords(geometry: FlankGeometry, letter: number, ends: EndNames): readonly Element[] {
  const gap = letter * 0.7;
  const word = (words: string, at: Point, anchor: Anchor): Element => text(words, at, letter, { anchor, ink: 'quiet' });
  const crown = pointAt(geometry, { heel: 0, crown: 0.6 });
  const root = pointAt(geometry, { heel: 0, crown: -0.58 });
  const above = pointAt(geometry, { heel: letter / geometry.length, crown: 0.6 }).y;
  return [
    ...endWords(geometry, letter, ends).map(({ words, at, anchor }) => word(words, at, anchor)),
    word('crown', { x: crown.x, y: Math.min(crown.y, above) - gap }, 'middle'),
    word('root', { x: root.x, y: root.y + gap + letter * 0.6 }, 'middle'),
  ];
}

interface EndWord {
  readonly words: string;
  readonly at: Point;
  readonly anchor: Anchor;
}

function endWords(geometry: FlankGeometry, letter: number, ends: EndNames): readonly EndWord[] {
  const gap = letter * 0.7;
  const toeLeft = geometry.turned === 'toe-left';
  const crown = { beside: 0, lower: -0.35, below: -0.58 }[ends];
  const toe = pointAt(geometry, { heel: -0.5, crown });
  const heel = pointAt(geometry, { heel: 0.5, crown });
  const [left, right] = toeLeft ? [toe, heel] : [heel, toe];
  const names = toeLeft ? (['toe', 'heel'] as const) : (['heel', 'toe'] as const);
  if (ends === 'below') {
    const below = gap + letter * 0.6;
    return [
      { words: names[0], at: { x: left.x, y: left.y + below }, anchor: 'start' },
      { words: names[1], at: { x: right.x, y: right.y + below }, anchor: 'end' },
    ];
  }
  return [
    { words: names[0], at: { x: left.x - gap, y: left.y + letter * 0.3 }, anchor: 'end' },
    { words: names[1], at: { x: right.x + gap, y: right.y + letter * 0.3 }, anchor: 'start' },
  ];
}
