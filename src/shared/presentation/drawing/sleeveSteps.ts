import { showText, type UnitSystem, unitShown } from '../../basics/show.ts';
import { box, line } from './paths.ts';
import { digitsOf, rangeFor, shareOf } from './scale.ts';
import { circle, type Element, path, pen, type Scene, type SceneSize, text } from './scene.ts';
import { type State, stateInk, stateMark } from './states.ts';
import { windowWords } from './words.ts';

/** One step of the nut as read: running torque in N·m with its standard uncertainty. */
interface SleeveStepDrawn {
  readonly running: number;
  readonly u: number;
}

export interface SleeveInput {
  /** The last steps, oldest first. */
  readonly steps: readonly SleeveStepDrawn[];
  /** How many steps came before those. */
  readonly before: number;
  /** What one more step like the last is expected to bring. */
  readonly next?: SleeveStepDrawn;
  readonly band: { readonly min: number; readonly max: number };
  readonly system: UnitSystem;
  readonly size: SceneSize;
}

interface Frame {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly letter: number;
  readonly x: (place: number) => number;
  readonly y: (torque: number) => number;
}

/** Places drawn whether they are filled or not, so that the picture stands still while it fills: five steps and the next. */
const places = 6;
/** A bar of two standard uncertainties either way. */
const wide = 2;

/** The steps of the nut climbing towards the band, and where the next is expected to land. */
export function sleeveScene(input: SleeveInput): Scene {
  const { width, height } = input.size;
  const frame = frameOf(input);
  return {
    width,
    height,
    elements: [
      ...bandElements(input, frame),
      ...climbElements(input, frame),
      ...input.steps.flatMap((step, place) => stepElements(step, place, input, frame)),
      ...nextElements(input, frame),
      ...numberElements(input, frame),
    ],
    title: 'Rotating torque after each step of the nut',
    description: describe(input),
  };
}

const shownSteps = ({ steps, next }: SleeveInput): readonly SleeveStepDrawn[] =>
  next === undefined ? steps : [...steps, next];

function frameOf(input: SleeveInput): Frame {
  const { width, height, text: letter } = input.size;
  const ends = shownSteps(input).flatMap(({ running, u }) => [Math.max(0, running - wide * u), running + wide * u]);
  // From nothing up, as the trace beside it is drawn: two charts of one quantity have one axis.
  const range = rangeFor([0, ...ends], input.band, 'torque', input.system);
  const [left, right, top, bottom] = [letter * 4.6, width - letter, letter * 1.6, height - letter * 2.2];
  return {
    left,
    right,
    bottom,
    letter,
    x: (place) => left + ((place + 0.5) / places) * (right - left),
    y: (torque) => bottom - shareOf(torque, range) * (bottom - top),
  };
}

function bandElements({ band, system }: SleeveInput, { left, right, letter, y }: Frame): readonly Element[] {
  const limits = [band.min, band.max];
  const digits = digitsOf(limits, 'torque', system);
  const unit = unitShown('torque', system).symbol;
  const beside = { anchor: 'end', ink: 'quiet', tabular: true } as const;
  return [
    path(box(left, y(band.max), right - left, y(band.min) - y(band.max)), { fill: 'band' }),
    ...limits.flatMap((limit, index) => [
      path(line({ x: left, y: y(limit) }, { x: right, y: y(limit) }), { stroke: 'line', width: pen(letter) }),
      text(digits[index] ?? '', { x: left - letter * 0.5, y: y(limit) + letter * 0.33 }, letter, beside),
    ]),
    text(unit, { x: left - letter * 0.5, y: (y(band.min) + y(band.max)) / 2 + letter * 0.33 }, letter, beside),
  ];
}

/** From step to step, and dashed to where the next is expected. */
function climbElements(input: SleeveInput, { letter, x, y }: Frame): readonly Element[] {
  const shown = shownSteps(input);
  return shown.slice(1).map(({ running }, index) => {
    const from = { x: x(index), y: y(shown[index]?.running ?? running) };
    const expected = index + 1 === input.steps.length;
    return path(line(from, { x: x(index + 1), y: y(running) }), {
      stroke: expected ? 'quiet' : 'line',
      width: pen(letter, 1.4),
      ...(expected ? { dash: [letter * 0.4, letter * 0.4] } : {}),
    });
  });
}

const stateOf = (torque: number, { min, max }: SleeveInput['band']): State | undefined => {
  if (torque > max) return 'outside';
  return torque >= min ? 'within' : undefined;
};

/** Below the band a step is neither good nor bad: a plain dot. */
function stepElements(step: SleeveStepDrawn, place: number, { band }: SleeveInput, frame: Frame): readonly Element[] {
  const { letter, x, y } = frame;
  const state = stateOf(step.running, band);
  const at = { x: x(place), y: y(step.running) };
  const [low, high] = [y(Math.max(0, step.running - wide * step.u)), y(step.running + wide * step.u)];
  const stroke = state === undefined ? 'text' : stateInk(state);
  const doubt = path(line({ x: at.x, y: low }, { x: at.x, y: high }), { stroke, width: letter * 0.2, cap: 'round' });
  return [
    ...(step.u > 0 ? [doubt] : []),
    ...(state === undefined ? [circle(at, letter * 0.42, { fill: 'text' })] : stateMark(state, at, letter * 1.2)),
  ];
}

function nextElements({ steps, next }: SleeveInput, { letter, x, y }: Frame): readonly Element[] {
  if (next === undefined) return [];
  const at = { x: x(steps.length), y: y(next.running) };
  const [low, high] = [y(Math.max(0, next.running - wide * next.u)), y(next.running + wide * next.u)];
  const dashed = { stroke: 'quiet', width: pen(letter, 1.4), dash: [letter * 0.3, letter * 0.3] } as const;
  return [
    path(line({ x: at.x, y: low }, { x: at.x, y: high }), dashed),
    circle(at, letter * 0.42, { fill: 'surface', stroke: 'quiet', width: pen(letter, 1.6) }),
  ];
}

/** Steps counted from the first, so that the last five keep their numbers. */
function numberElements({ steps, before, next }: SleeveInput, { letter, bottom, x }: Frame): readonly Element[] {
  const under = (words: string, place: number): Element =>
    text(words, { x: x(place), y: bottom + letter * 1.7 }, letter, { anchor: 'middle', ink: 'quiet', tabular: true });
  return [
    ...steps.map((_, place) => under(String(before + place + 1), place)),
    ...(next === undefined ? [] : [under('next', steps.length)]),
  ];
}

function describe({ steps, next, band, system }: SleeveInput): string {
  const shown = (torque: number): string => showText(torque, 'torque', system);
  const said = steps.length === 0 ? 'No step yet' : `Last steps ${steps.map((step) => shown(step.running)).join(', ')}`;
  const coming = next === undefined ? '' : ` One more like the last is expected at ${shown(next.running)}.`;
  return `${said}.${coming} ${windowWords(band, system, 'torque')}`;
}
