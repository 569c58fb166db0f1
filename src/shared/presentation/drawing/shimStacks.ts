import { showText, type UnitSystem } from '../../basics/show.ts';
import { box, line } from './paths.ts';
import { type Element, path, pen, roughWidth, type Scene, type SceneSize, text } from './scene.ts';

/** One pack: how thick it was before and is now, in mm; what is not known is left out. */
export interface DrawnPack {
  readonly name: string;
  readonly before_mm?: number;
  readonly now_mm?: number;
}

export interface StacksInput {
  readonly packs: readonly DrawnPack[];
  /** The packs of the two sides together, which keeps the case's preload. */
  readonly sides?: { readonly before_mm?: number; readonly now_mm?: number };
  readonly system: UnitSystem;
  readonly size: SceneSize;
}

/** The packs side by side to one scale, what was in before as an outline, what is in now filled, the difference over it. */
export function stacksScene(input: StacksInput): Scene {
  const { width, height } = input.size;
  return {
    width,
    height,
    elements: [...input.packs.flatMap((pack, index) => packElements(pack, index, input)), ...sidesElements(input)],
    title: 'Shim packs',
    description: describe(input),
  };
}

/** Room above for the difference, below for the name, the thickness and the sum of the sides; in letters. */
const above = 2.2;
const below = 4.6;

function packElements(pack: DrawnPack, index: number, { packs, system, size }: StacksInput): readonly Element[] {
  const { width, height, text: letter } = size;
  const column = width / Math.max(1, packs.length);
  const [middle, base] = [column * (index + 0.5), height - letter * below];
  const most = Math.max(...packs.flatMap(({ before_mm = 0, now_mm = 0 }) => [before_mm, now_mm]), 0.1);
  const tall = (thickness: number): number => (thickness / most) * (base - letter * above);
  const half = Math.min(column * 0.3, letter * 3.2);
  const block = (thickness: number): string => box(middle - half, base - tall(thickness), 2 * half, tall(thickness));
  const { before_mm, now_mm } = pack;
  const centred = { anchor: 'middle', tabular: true } as const;
  const known = now_mm ?? before_mm;
  return [
    path(line({ x: middle - half * 1.3, y: base }, { x: middle + half * 1.3, y: base }), {
      stroke: 'line',
      width: pen(letter, 1.4),
    }),
    ...(now_mm === undefined ? [] : [path(block(now_mm), { fill: 'metal', stroke: 'line', width: pen(letter) })]),
    ...(before_mm === undefined
      ? []
      : [path(block(before_mm), { stroke: 'text', width: pen(letter, 1.4), dash: [pen(letter, 5), pen(letter, 4)] })]),
    ...differenceElements(
      pack,
      { x: middle, y: base - tall(Math.max(before_mm ?? 0, now_mm ?? 0)) - letter * 0.6 },
      { system, letter },
    ),
    text(pack.name, { x: middle, y: base + letter * 1.3 }, letter * 0.9, { anchor: 'middle', ink: 'quiet' }),
    ...(known === undefined
      ? []
      : [
          text(showText(known, 'length', system), { x: middle, y: base + letter * 2.6 }, letter, {
            ...centred,
            weight: 600,
          }),
        ]),
  ];
}

/** By how much the pack changes, with its sign; nothing where it does not or is not known. */
function differenceElements(
  { before_mm, now_mm }: DrawnPack,
  at: { readonly x: number; readonly y: number },
  { system, letter }: { readonly system: UnitSystem; readonly letter: number },
): readonly Element[] {
  if (before_mm === undefined || now_mm === undefined) return [];
  const words = differenceWords(now_mm - before_mm, system);
  return words === undefined ? [] : [text(words, at, letter * 1.15, { anchor: 'middle', weight: 700, tabular: true })];
}

/** Less than this is the micrometer's, not a shim's. */
const leastChange_mm = 0.002;

function differenceWords(change_mm: number, system: UnitSystem): string | undefined {
  if (Math.abs(change_mm) < leastChange_mm) return undefined;
  return `${change_mm > 0 ? '+' : '−'}${showText(Math.abs(change_mm), 'length', system)}`;
}

function sidesElements({ sides, system, size }: StacksInput): readonly Element[] {
  const words = sidesWords(sides, system);
  if (words === undefined) return [];
  const { width, height, text: letter } = size;
  const fitting = Math.min(letter, width / roughWidth(words, 1));
  return [text(words, { x: width / 2, y: height - letter * 0.5 }, fitting, { anchor: 'middle', tabular: true })];
}

function sidesWords(sides: StacksInput['sides'], system: UnitSystem): string | undefined {
  if (sides?.now_mm === undefined) return undefined;
  const before = sides.before_mm === undefined ? '' : ` (${showText(sides.before_mm, 'length', system)} before)`;
  return `Both sides ${showText(sides.now_mm, 'length', system)}${before}`;
}

function describe({ packs, sides, system }: StacksInput): string {
  const said = packs.map(({ name, before_mm, now_mm }) => {
    if (now_mm === undefined && before_mm === undefined) return `${name}: not known.`;
    const now = now_mm === undefined ? 'not measured' : showText(now_mm, 'length', system);
    return `${name}: ${now}${before_mm === undefined ? '' : `, ${showText(before_mm, 'length', system)} before`}.`;
  });
  const sum = sidesWords(sides, system);
  return [...said, ...(sum === undefined ? [] : [`${sum}.`])].join(' ');
}
