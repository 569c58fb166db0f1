import type { FlanksInput, FlankView } from './flanksInput.ts';
import { flankElements } from './flankPicture.ts';
import { type FlankGeometry, flankGeometry } from './flankShape.ts';
import { flanksDescription } from './flankWords.ts';
import { type Element, roughWidth, type Scene, text } from './scene.ts';

export interface FlanksLayout {
  readonly drive: FlankGeometry;
  readonly coast: FlankGeometry;
}

/** Face width over height as drawn: the default set of docs/mesh-model.md comes to about 3, a little less shows height better. */
const aspect = 2.7;

/** Where the two flanks lie on the picture, so that a pointer can be turned into a place (flankShape.ts). */
export function flanksLayout({ drive, coast, cut = 'not-known', turned, size }: FlanksInput): FlanksLayout {
  const { width, height, text: letter } = size;
  const half = width / 2;
  const room = { width: half - letter * 8, height: height - letter * 6.5 };
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
    ...heading('Drive', layout.drive, letter),
    ...flankElements(input.drive, layout.drive, letter),
    ...heading('Coast', layout.coast, letter),
    ...flankElements(input.coast, layout.coast, letter),
  ];
  return { width, height, elements, title: 'Marks on the ring gear', description: flanksDescription(input) };
}

function heading(name: string, geometry: FlankGeometry, letter: number): readonly Element[] {
  const x = geometry.centre.x - geometry.length / 2;
  const y = geometry.centre.y - geometry.height * 0.8 - letter * 1.8;
  const after = x + roughWidth(name, letter * 1.25) + letter * 0.7;
  return [
    text(name, { x, y }, letter * 1.25, { weight: 600 }),
    text(geometry.flank, { x: after, y }, letter, { ink: 'quiet' }),
  ];
}
