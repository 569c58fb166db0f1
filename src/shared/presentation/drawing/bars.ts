import { showText, type UnitSystem, unitShown } from '../../basics/show.ts';
import type { Dimension } from '../../basics/units.ts';
import { hatch } from './hatch.ts';
import { box, line } from './paths.ts';
import { windowWords } from './words.ts';
import { digitsOf, type Limits, limitValues, rangeFor, type Range, shareOf } from './scale.ts';
import { type Element, path, pen, type Point, roughWidth, type Scene, type SceneSize, text } from './scene.ts';
import { type State, stateInk, stateMark, stateWords } from './states.ts';

export interface BarInput {
  readonly quantity: string;
  readonly dimension: Dimension;
  /** In the unit used inside. */
  readonly value: number;
  readonly U95?: number;
  readonly limits: Limits;
  readonly state: State;
  readonly system: UnitSystem;
  readonly size: SceneSize;
}

interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly middle: number;
  readonly range: Range;
  readonly x: (value: number) => number;
}

/**
 * One value with its uncertainty against its window, lying down. Around each limit the stretch within which the
 * reading could not tell is hatched, so that too close to call can be seen as well as read.
 */
export function barScene(input: BarInput): Scene {
  const { width, height } = input.size;
  const frame = frameOf(input);
  const elements = [
    ...windowElements(input, frame),
    ...noughtElements(input, frame),
    ...doubtElements(input, frame),
    ...limitElements(input, frame),
    ...valueElements(input, frame),
  ];
  const shown = showText(input.value, input.dimension, input.system);
  const doubt = input.U95 === undefined ? '' : ` ± ${showText(input.U95, input.dimension, input.system)}`;
  const description = `${shown}${doubt}, ${stateWords[input.state]}. ${windowWords(input.limits, input.system, input.dimension)}`;
  return { width, height, elements, title: input.quantity, description };
}

function frameOf({ value, U95 = 0, limits, dimension, system, size }: BarInput): Frame {
  const { width, height, text: letter } = size;
  // Without a lower limit everything from nothing up lies within.
  const nought = limits.min === undefined ? [0] : [];
  const range = rangeFor([value - U95, value + U95, ...nought], limits, dimension, system);
  const [left, right] = [letter, width - letter];
  const top = isRoomy(size) ? letter * 2.2 : letter * 0.5;
  const bottom = height - letter * 1.6;
  const x = (shown: number): number => left + shareOf(shown, range) * (right - left);
  return { left, right, top, bottom, middle: (top + bottom) / 2, range, x };
}

/** With so much height the value is written above its place. */
const isRoomy = ({ height, text: letter }: SceneSize): boolean => height >= letter * 6;

/** The left end in numbers where it is no limit: else nobody knows how far from zero the value lies. */
function noughtElements(
  { limits, dimension, system, size }: BarInput,
  { left, bottom, range, x }: Frame,
): readonly Element[] {
  const letter = size.text;
  const first = limitValues(limits)[0];
  if (!isRoomy(size) || limits.min !== undefined || (first !== undefined && x(first) - left < letter * 3)) return [];
  const words = digitsOf([range.low], dimension, system)[0] ?? '';
  return [text(words, { x: left, y: bottom + letter * 1.3 }, letter * 0.9, { ink: 'quiet', tabular: true })];
}

function windowElements(
  { limits, size }: BarInput,
  { left, right, top, bottom, middle, x }: Frame,
): readonly Element[] {
  const from = limits.min === undefined ? left : x(limits.min);
  const to = limits.max === undefined ? right : x(limits.max);
  return [
    path(box(from, top, to - from, bottom - top), { fill: 'band' }),
    path(line({ x: left, y: middle }, { x: right, y: middle }), { stroke: 'faint', width: pen(size.text) }),
  ];
}

function doubtElements(
  { limits, U95 = 0, size }: BarInput,
  { left, right, top, bottom, x }: Frame,
): readonly Element[] {
  if (!(U95 > 0)) return [];
  return limitValues(limits).map((limit) => {
    const [from, to] = [Math.max(left, x(limit - U95)), Math.min(right, x(limit + U95))];
    const corners: readonly Point[] = [
      { x: from, y: top },
      { x: to, y: top },
      { x: to, y: bottom },
      { x: from, y: bottom },
    ];
    return path(hatch(corners, 60, size.text * 0.36), {
      stroke: 'too-close',
      width: pen(size.text, 0.8),
      opacity: 0.6,
    });
  });
}

function limitElements({ limits, dimension, system, size }: BarInput, frame: Frame): readonly Element[] {
  const { top, bottom, x } = frame;
  const values = limitValues(limits);
  const digits = digitsOf(values, dimension, system);
  const unit = unitShown(dimension, system).symbol;
  const letter = size.text;
  return values.flatMap((value, index) => {
    const words = index === values.length - 1 ? `${digits[index] ?? ''} ${unit}` : (digits[index] ?? '');
    return [
      path(line({ x: x(value), y: top - letter * 0.2 }, { x: x(value), y: bottom + letter * 0.3 }), {
        stroke: 'line',
        width: pen(letter, 1.4),
      }),
      text(words, { x: x(value), y: bottom + letter * 1.3 }, letter * 0.9, {
        ink: 'quiet',
        anchor: 'middle',
        tabular: true,
      }),
    ];
  });
}

function valueElements(input: BarInput, { left, right, top, middle, x }: Frame): readonly Element[] {
  const { value, U95 = 0, state, size, dimension, system } = input;
  const letter = size.text;
  const bar = line({ x: x(value - U95), y: middle }, { x: x(value + U95), y: middle });
  const shown = showText(value, dimension, system);
  const half = roughWidth(shown, letter * 1.2) / 2;
  const at = Math.min(right - half, Math.max(left + half, x(value)));
  const written = text(shown, { x: at, y: top - letter * 0.7 }, letter * 1.2, {
    anchor: 'middle',
    weight: 600,
    tabular: true,
  });
  return [
    ...(isRoomy(size) ? [written] : []),
    ...(U95 > 0 ? [path(bar, { stroke: stateInk(state), width: letter * 0.24, cap: 'round' })] : []),
    ...stateMark(state, { x: x(value), y: middle }, letter * 1.2),
  ];
}
