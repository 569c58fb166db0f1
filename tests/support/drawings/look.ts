import type { Element, Point, Scene, TextElement } from '../../../src/shared/presentation/drawing/scene.ts';

/** Every element with groups opened; the groups of these drawings are neither moved nor turned. */
export const flat = (elements: readonly Element[]): readonly Exclude<Element, { kind: 'group' }>[] =>
  elements.flatMap((element) => (element.kind === 'group' ? flat(element.elements) : [element]));

export const wordsOf = (scene: Scene): readonly string[] =>
  flat(scene.elements).flatMap((element) => (element.kind === 'text' ? [element.text] : []));

export const textSaying = (scene: Scene, words: string): TextElement | undefined =>
  flat(scene.elements).find((element): element is TextElement => element.kind === 'text' && element.text === words);

/** The points named in path data: ends and control points; of an arc only its end. */
export function pathPoints(d: string): readonly Point[] {
  const commands = d.match(/[MLCQA][^MLCQAZ]*/gu) ?? [];
  return commands.flatMap((command) => {
    const numbers = (command.slice(1).match(/-?\d*\.?\d+(?:e-?\d+)?/gu) ?? []).map(Number);
    const pairs = command.startsWith('A') ? numbers.slice(-2) : numbers;
    return pairs.flatMap((x, index) => (index % 2 === 0 ? [{ x, y: pairs[index + 1] ?? Number.NaN }] : []));
  });
}

/** Every place an element reaches, roughly: path points, circles' bounding points, texts' anchors. */
export const placesOf = (scene: Scene): readonly Point[] =>
  flat(scene.elements).flatMap((element) => {
    if (element.kind === 'path') return pathPoints(element.d);
    if (element.kind === 'text') return [{ x: element.x, y: element.y }];
    const { x, y, r } = element;
    return [
      { x: x - r, y: y - r },
      { x: x + r, y: y + r },
    ];
  });
