import type { FlanksInput, FlankView } from './flanksInput.ts';
import { flankElements } from './flankPicture.ts';
import { type FlankGeometry, flankGeometry } from './flankShape.ts';
import { flanksDescription } from './flankWords.ts';
import { type Element, type Point, roughWidth, type Scene, text } from './scene.ts';

interface FlanksLayout {
  readonly drive: FlankGeometry;
  readonly coast: FlankGeometry;
  /** Where each flank's name stands. */
  readonly named: Named;
}

/** Above its flank, or beside it where the room is low and wide: two lines of letters more for the flank. */
type Named = 'above' | 'beside';

/**
 * Face width over height as drawn: the default set of docs/mesh-model.md comes to about 3, a little less shows height better.
 * Where there is height to spare a flank takes it, down to the second: a hand draws better on a higher one.
 */
const [aspect, leastAspect] = [2.7, 2.1];

/** Where the two flanks lie on the picture, so that a pointer can be turned into a place (flankShape.ts). */
export function flanksLayout(input: FlanksInput): FlanksLayout {
  const { drive, coast, cut = 'not-known', turned, size, bare = false } = input;
  const { width, height } = size;
  const [beside, above] = [
    { width: width / 2, height },
    { width, height: height / 2 },
  ];
  // Side by side or one above the other, whichever makes them larger.
  const stacked = !bare && lengthIn(above, input, 'above') > lengthIn(beside, input, 'above');
  const cell = stacked ? above : beside;
  const named = namedIn(cell, input);
  const length = lengthIn(cell, input, named);
  const drawnHeight = bare ? length / aspect : Math.min(heightIn(cell, input, named), length / leastAspect);
  const placed = (view: FlankView, x: number, y: number): FlankGeometry =>
    flankGeometry(view.flank, cut, turned, {
      centre: { x, y: y + size.text * (named === 'above' ? 0.6 : 0.2) },
      length,
      height: drawnHeight,
    });
  return {
    named,
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

/** What names or controls of the edges take up beside a flank, and above and below it together. */
function roomAround(input: FlanksInput, named: Named): readonly [number, number] {
  const { bare = false, controlRoom, size } = input;
  const letter = size.text;
  if (bare) return [letter * 1.2, letter * 2];
  if (controlRoom !== undefined) return [letter * 2, letter * 1.2 + 2 * controlRoom];
  return named === 'above' ? [letter * 6.2, letter * 6.5] : [letter * 10, letter * 4.4];
}

/** Beside only where a picture may have it so, and where it makes the flank larger by enough to be seen. */
const namedIn = (cell: Cell, input: FlanksInput): Named =>
  input.low === true && lengthIn(cell, input, 'beside') > 1.05 * lengthIn(cell, input, 'above') ? 'beside' : 'above';

/** The height at mid face that a cell holds: bow and taper make the whole of it half as high again. */
const heightIn = (cell: Cell, input: FlanksInput, named: Named): number =>
  (cell.height - roomAround(input, named)[1]) / 1.55;

/** The drawn face width that a cell holds. */
const lengthIn = (cell: Cell, input: FlanksInput, named: Named): number =>
  Math.min(cell.width - roomAround(input, named)[0], heightIn(cell, input, named) * aspect);

/** Drive and coast flank of a ring-gear tooth, side by side and turned the same way, with what is known of the mark. */
export function flanksScene(input: FlanksInput): Scene {
  const layout = flanksLayout(input);
  const { width, height, text: letter } = input.size;
  const elements = [
    ...heading('Drive', layout.drive, { input, named: layout.named }),
    ...flankElements(input.drive, layout.drive, letter, namesLess(input)),
    ...heading('Coast', layout.coast, { input, named: layout.named }),
    ...flankElements(input.coast, layout.coast, letter, namesLess(input)),
  ];
  return { width, height, elements, title: 'Marks on the ring gear', description: flanksDescription(input) };
}

const namesLess = ({ bare = false, controlRoom }: FlanksInput): boolean => bare || controlRoom !== undefined;

interface Heading {
  readonly input: FlanksInput;
  readonly named: Named;
}

function heading(name: string, geometry: FlankGeometry, { input, named }: Heading): readonly Element[] {
  const { size, bare = false } = input;
  const letter = size.text;
  const x = geometry.centre.x - geometry.length / 2;
  if (bare) return [text(name, { x, y: letter }, letter, { weight: 600 })];
  if (named === 'beside') {
    const top = geometry.centre.y - geometry.height * 0.5;
    const at = (lines: number): Point => ({ x: x - letter * 0.7, y: top + letter * lines });
    return [
      text(name, at(0.6), letter * 1.25, { anchor: 'end', weight: 600 }),
      text(geometry.flank, at(1.9), letter, { anchor: 'end', ink: 'quiet' }),
    ];
  }
  const y = geometry.centre.y - geometry.height * 0.8 - letter * (input.controlRoom === undefined ? 1.8 : 0.9);
  const after = x + roughWidth(name, letter * 1.25) + letter * 0.7;
  return [
    text(name, { x, y }, letter * 1.25, { weight: 600 }),
    text(geometry.flank, { x: after, y }, letter, { ink: 'quiet' }),
  ];
}
