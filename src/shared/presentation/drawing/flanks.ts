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

/** Where the two flanks lie on the picture, so that a pointer can be turned into a place (flankShape.ts). */
export function flanksLayout({
  drive,
  coast,
  cut = 'not-known',
  turned,
  size,
  bare = false,
}: FlanksInput): FlanksLayout {
  const { width, height, text: letter } = size;
  const half = width / 2;
  const room = bare
    ? { width: half - letter * 1.2, height: height - letter * 2 }
    : { width: half - letter * 8, height: height - letter * 6.5 };
  const length = Math.min(room.width, (room.height / 1.55) * aspect);
  const y = height / 2 + letter * 0.6;
  const placed = (view: FlankView, x: number): FlankGeometry =>
    flankGeometry(view.flank, cut, turned, { centre: { x, y }, length, height: length / aspect });
  return { drive: placed(drive, half / 2), coast: placed(coast, half * 1.5) };
}

/** Drive and coast flank of a ring-gear tooth, side by side and turned the same way, with what is known of the mark. */
export function flanksScene(input: FlanksInput): Scene {
  const layout = flanksLayout(input);
  const { width, height, text: letter } = input.size;
  const elements = [
    ...heading('Drive', layout.drive, input),
    ...flankElements(input.drive, layout.drive, letter, input.bare),
    ...heading('Coast', layout.coast, input),
    ...flankElements(input.coast, layout.coast, letter, input.bare),
  ];
  return { width, height, elements, title: 'Marks on the ring gear', description: flanksDescription(input) };
}

function heading(name: string, geometry: FlankGeometry, { size, bare = false }: FlanksInput): readonly Element[] {
  const letter = size.text;
  const x = geometry.centre.x - geometry.length / 2;
  if (bare) return [text(name, { x, y: letter }, letter, { weight: 600 })];
  const y = geometry.centre.y - geometry.height * 0.8 - letter * 1.8;
  const after = x + roughWidth(name, letter * 1.25) + letter * 0.7;
  return [
    text(name, { x, y }, letter * 1.25, { weight: 600 }),
    text(geometry.flank, { x: after, y }, letter, { ink: 'quiet' }),
  ];
}
