import type { FlanksInput, FlankView } from './flanksInput.ts';
import { flankElements } from './flankPicture.ts';
import { type FlankGeometry, flankGeometry } from './flankShape.ts';
import { flanksDescription } from './flankWords.ts';
import { type Element, type Point, roughWidth, type Scene, text } from './scene.ts';

interface FlanksLayout {
  readonly drive: FlankGeometry;
  readonly coast: FlankGeometry;
  readonly lettered: Lettered;
}

/**
 * Where the words of a flank stand: its name above it and toe and heel beside it; the name beside it too, where the room is
 * low; or toe and heel below their corners, where it is narrow.
 */
type Lettered = 'round' | 'low' | 'narrow';

/**
 * Face width over height as drawn: the default set of docs/mesh-model.md comes to about 3, a little less shows height better.
 * Where there is height to spare a flank takes it, down to the second: a hand draws better on a higher one.
 */
const [aspect, leastAspect] = [2.7, 2.1];

/** Words leave their usual places only where that makes a flank larger by enough to be seen. */
const worthMoving = 1.05;

/** Where the two flanks lie on the picture, so that a pointer can be turned into a place (flankShape.ts). */
export function flanksLayout(input: FlanksInput): FlanksLayout {
  const { drive, coast, cut = 'not-known', turned, size, bare = false } = input;
  const { cell, stacked, lettered } = roomiest(input);
  const length = lengthIn(cell, input, lettered);
  const drawnHeight = bare ? length / aspect : Math.min(heightIn(cell, input, lettered), length / leastAspect);
  const placed = (view: FlankView, x: number, y: number): FlankGeometry =>
    flankGeometry(view.flank, cut, turned, {
      centre: { x, y: y + size.text * (lettered === 'low' ? 0.2 : 0.6) },
      length,
      height: drawnHeight,
    });
  return {
    lettered,
    drive: placed(drive, cell.width / 2, cell.height / 2),
    coast: stacked
      ? placed(coast, cell.width / 2, cell.height * 1.5)
      : placed(coast, cell.width * 1.5, cell.height / 2),
  };
}

interface Cell {
  readonly width: number;
  readonly height: number;
}

/** Side by side or one above the other, with the words where the room leaves them: whichever makes the flanks largest. */
function roomiest(input: FlanksInput): {
  readonly cell: Cell;
  readonly stacked: boolean;
  readonly lettered: Lettered;
} {
  const { size, bare = false, wordsGiveWay = false } = input;
  const beside = { cell: { width: size.width / 2, height: size.height }, stacked: false };
  const above = { cell: { width: size.width, height: size.height / 2 }, stacked: true };
  const ways = (wordsGiveWay ? (['round', 'low', 'narrow'] as const) : (['round'] as const)).flatMap((lettered) =>
    (bare ? [beside] : [beside, above]).map((way) => {
      const length = lengthIn(way.cell, input, lettered);
      return { ...way, lettered, worth: lettered === 'round' ? length * worthMoving : length };
    }),
  );
  return ways.reduce((best, way) => (way.worth > best.worth ? way : best));
}

/** What names or controls of the edges take up beside a flank, and above and below it together. */
function roomAround(input: FlanksInput, lettered: Lettered): readonly [number, number] {
  const { bare = false, controlRoom, size } = input;
  const letter = size.text;
  if (bare) return [letter * 1.2, letter * 2];
  if (controlRoom !== undefined) return [letter * 2, letter * 1.2 + 2 * controlRoom];
  return {
    round: [letter * 6.2, letter * 6.5] as const,
    low: [letter * 10, letter * 4.4] as const,
    narrow: [letter * 1.6, letter * 6.5] as const,
  }[lettered];
}

/** The height at mid face that a cell holds: bow and taper make the whole of it half as high again. */
const heightIn = (cell: Cell, input: FlanksInput, lettered: Lettered): number =>
  (cell.height - roomAround(input, lettered)[1]) / 1.55;

/** The drawn face width that a cell holds. */
const lengthIn = (cell: Cell, input: FlanksInput, lettered: Lettered): number =>
  Math.min(cell.width - roomAround(input, lettered)[0], heightIn(cell, input, lettered) * aspect);

/** Drive and coast flank of a ring-gear tooth, side by side and turned the same way, with what is known of the mark. */
export function flanksScene(input: FlanksInput): Scene {
  const layout = flanksLayout(input);
  const { lettered } = layout;
  const { width, height, text: letter } = input.size;
  const names = namesLess(input) ? 'none' : endNames[lettered];
  const elements = [
    ...heading('Drive', layout.drive, { input, lettered }),
    ...flankElements(input.drive, layout.drive, letter, names),
    ...heading('Coast', layout.coast, { input, lettered }),
    ...flankElements(input.coast, layout.coast, letter, names),
  ];
  return { width, height, elements, title: 'Marks on the ring gear', description: flanksDescription(input) };
}

const endNames = { round: 'beside', low: 'lower', narrow: 'below' } as const;

const namesLess = ({ bare = false, controlRoom }: FlanksInput): boolean => bare || controlRoom !== undefined;

interface Heading {
  readonly input: FlanksInput;
  readonly lettered: Lettered;
}

function heading(name: string, geometry: FlankGeometry, { input, lettered }: Heading): readonly Element[] {
  const { size, bare = false } = input;
  const letter = size.text;
  const x = geometry.centre.x - geometry.length / 2;
  if (bare) return [text(name, { x, y: letter }, letter, { weight: 600 })];
  if (lettered === 'low') {
    const top = geometry.centre.y - geometry.height * 0.5;
    const at = (lines: number): Point => ({ x: x - letter * 0.7, y: top + letter * lines });
    return [
      text(name, at(0.2), letter * 1.25, { anchor: 'end', weight: 600 }),
      text(geometry.flank, at(1.4), letter, { anchor: 'end', ink: 'quiet' }),
    ];
  }
  const y = geometry.centre.y - geometry.height * 0.8 - letter * (input.controlRoom === undefined ? 1.8 : 0.9);
  const after = x + roughWidth(name, letter * 1.25) + letter * 0.7;
  return [
    text(name, { x, y }, letter * 1.25, { weight: 600 }),
    text(geometry.flank, { x: after, y }, letter, { ink: 'quiet' }),
  ];
}
