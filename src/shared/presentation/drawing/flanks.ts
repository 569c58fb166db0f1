import type { FlanksInput, FlankView } from './flanksInput.ts';
import { flankElements } from './flankPicture.ts';
import { type FlankGeometry, flankGeometry } from './flankShape.ts';
import { flanksDescription } from './flankWords.ts';
import { type Element, roughWidth, type Scene, text } from './scene.ts';

interface FlanksLayout {
  readonly drive: FlankGeometry;
  readonly coast: FlankGeometry;
}

/** Face width over height as drawn: the default set of docs/mesh-model.md comes to about 3, a little less shows height better. */
const aspect = 2.7;

/** Above this share of height to width the flanks stand one above the other, each over the whole width. */
const stackedAbove = 0.75;

/** Where the two flanks lie on the picture, so that a pointer can be turned into a place (flankShape.ts). */
export function flanksLayout(input: FlanksInput): FlanksLayout {
  const { drive, coast, cut = 'not-known', turned, size, bare = false } = input;
  const { width, height } = size;
  const stacked = !bare && height > stackedAbove * width;
  const cell = stacked ? { width, height: height / 2 } : { width: width / 2, height };
  const length = lengthIn(cell, input);
  const placed = (view: FlankView, x: number, y: number): FlankGeometry =>
    flankGeometry(view.flank, cut, turned, {
      centre: { x, y: y + size.text * 0.6 },
      length,
      height: length / aspect,
    });
  return {
    drive: placed(drive, cell.width / 2, cell.height / 2),
    coast: stacked
      ? placed(coast, cell.width / 2, cell.height * 1.5)
      : placed(coast, cell.width * 1.5, cell.height / 2),
  };
}

/** The drawn face width: as much as the cell holds beside the names or controls of the edges. */
function lengthIn(
  cell: { readonly width: number; readonly height: number },
  { bare = false, controlRoom, size }: FlanksInput,
): number {
  const letter = size.text;
  const [beside, around] = bare
    ? [letter * 1.2, letter * 2]
    : controlRoom === undefined
      ? [letter * 6.2, letter * 6.5]
      : [letter * 2, letter * 1.2 + 2 * controlRoom];
  return Math.min(cell.width - beside, ((cell.height - around) / 1.55) * aspect);
}

/** Drive and coast flank of a ring-gear tooth, side by side and turned the same way, with what is known of the mark. */
export function flanksScene(input: FlanksInput): Scene {
  const layout = flanksLayout(input);
  const { width, height, text: letter } = input.size;
  const elements = [
    ...heading('Drive', layout.drive, input),
    ...flankElements(input.drive, layout.drive, letter, namesLess(input)),
    ...heading('Coast', layout.coast, input),
    ...flankElements(input.coast, layout.coast, letter, namesLess(input)),
  ];
  return { width, height, elements, title: 'Marks on the ring gear', description: flanksDescription(input) };
}

const namesLess = ({ bare = false, controlRoom }: FlanksInput): boolean => bare || controlRoom !== undefined;

function heading(name: string, geometry: FlankGeometry, input: FlanksInput): readonly Element[] {
  const { size, bare = false } = input;
  const letter = size.text;
  const x = geometry.centre.x - geometry.length / 2;
  if (bare) return [text(name, { x, y: letter }, letter, { weight: 600 })];
  const y = geometry.centre.y - geometry.height * 0.8 - letter * (input.controlRoom === undefined ? 1.8 : 0.9);
  const after = x + roughWidth(name, letter * 1.25) + letter * 0.7;
  return [
    text(name, { x, y }, letter * 1.25, { weight: 600 }),
    text(geometry.flank, { x: after, y }, letter, { ink: 'quiet' }),
  ];
}
