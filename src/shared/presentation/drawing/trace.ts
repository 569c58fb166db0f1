import { showText, type UnitSystem, unitShown } from '../../basics/show.ts';
import type { Dimension } from '../../basics/units.ts';
import { decimated, type Stretch, stretchesOf, type TracePoint } from './decimate.ts';
import { box, line, polyline } from './paths.ts';
import { digitsOf, type Limits, limitValues, niceStep, type Range, rangeFor, shareOf } from './scale.ts';
import { type Anchor, circle, type Element, path, pen, type Point, type Scene, type SceneSize, text } from './scene.ts';
import { type State, stateInk } from './states.ts';

/** Something the measuring found in the stream, where it found it. */
export interface TraceEvent {
  readonly kind: 'rest' | 'rock' | 'breakaway' | 'running' | 'press';
  readonly t: number;
  /** For what lasts: a rest, the running stretch. */
  readonly until?: number;
  readonly v: number;
  /** What is made of it, where a limit was given. */
  readonly state?: State;
}

export interface TraceInput {
  /** What is drawn: "Rotating torque". */
  readonly quantity: string;
  readonly dimension: Dimension;
  readonly points: readonly TracePoint[];
  /** Between which the value should lie, in the unit used inside. */
  readonly band?: Limits;
  readonly events: readonly TraceEvent[];
  /** What counts as zero, in the unit used inside: the lower rest of a station. Readings and events are drawn from there. */
  readonly zero?: number;
  /** Which level to write at the right, from {@link zero}: the rest the stem stands at now, the running torque. */
  readonly level?: number;
  /** What is written at the level in place of its number alone. */
  readonly levelWords?: string;
  /** Only a calm stem sets the scale; where it was lifted or came down, the line leaves the picture with a chevron. */
  readonly calm?: boolean;
  /** How much time the width shows; the newest reading is at the right. */
  readonly span_s: number;
  readonly system: UnitSystem;
  readonly size: SceneSize;
}

interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly letter: number;
  readonly from_s: number;
  readonly to_s: number;
  readonly range: Range;
  readonly x: (t: number) => number;
  readonly y: (v: number) => number;
}

/**
 * Readings over time as one line on the band of the limits. Nothing is boxed and there is no grid: only the
 * limits, a measure of time and what was found in the stream are written, each where it is.
 */
export function traceScene(given: TraceInput): Scene {
  const input = fromZero(given);
  const stretches = shownStretches(input);
  const frame = frameOf(input, stretches);
  const elements = [
    ...bandElements(input, frame),
    ...scaleElements(input, frame),
    ...timeElements(input, frame),
    ...levelElements(input, frame),
    ...input.events.flatMap((event) => eventElements(under, event, input, frame)),
    ...stretches.map((stretch) => stretchElement(stretch, frame)),
    ...leavingElements(stretches, frame),
    ...input.events.flatMap((event) => eventElements(over, event, input, frame)),
  ];
  const { width, height } = input.size;
  return {
    width,
    height,
    elements,
    title: `${input.quantity} over time`,
    description: traceDescription(input, stretches),
  };
}

/** What was found, from the zero asked for; without one as it was read. */
const fromZero = (input: TraceInput): TraceInput =>
  input.zero === undefined
    ? input
    : { ...input, events: input.events.map((event) => ({ ...event, v: event.v - (input.zero ?? 0) })) };

/** What lies in the span shown, thinned to the picture's width: nothing after this looks at every reading. */
function shownStretches({ points, span_s, size, zero = 0 }: TraceInput): readonly Stretch[] {
  const from_s = (points.at(-1)?.t ?? 0) - span_s;
  const thinned = stretchesOf(points, from_s).map((stretch) => decimated(stretch, span_s / Math.max(1, size.width)));
  return zero === 0 ? thinned : thinned.map((stretch) => stretch.map((point) => ({ ...point, v: point.v - zero })));
}

function frameOf(input: TraceInput, stretches: readonly Stretch[]): Frame {
  const { width, height, text: letter } = input.size;
  const newest = input.points.at(-1)?.t ?? 0;
  const [right, top, bottom] = [width - letter, letter * 1.6, height - letter * 2.2];
  // In a flat picture both ends of the scale share a line.
  const left = letter * (bottom - top < 4 * letter ? 7.4 : 4.6);
  const [from_s, to_s] = [newest - input.span_s, newest];
  const range = rangeFor(valuesThatScale(input, stretches), input.band, input.dimension, input.system);
  return {
    left,
    right,
    top,
    bottom,
    letter,
    from_s,
    to_s,
    range,
    x: (t) => left + ((t - from_s) / input.span_s) * (right - left),
    y: (v) => bottom - Math.min(1, Math.max(0, shareOf(v, range))) * (bottom - top),
  };
}

/** Less than this below zero is the gauge's own unrest. Own choice: half of what a torque picture spans at least. */
const restingTorque_Nm = 0.25;

/** What must lie on the picture: what was read since the scale began, and zero where the quantity has one of its own. */
function valuesThatScale(input: TraceInput, stretches: readonly Stretch[]): readonly number[] {
  const { calm = false, dimension, zero, level } = input;
  const scaleFrom_s = calm ? calmFrom(stretches) : -Infinity;
  // A stem on its way to the next tooth would press the play flat: from a rest, only what was found at rest counts.
  const counts = zero === undefined ? stretches : [];
  // A torque gauge at rest wanders about zero: that opens no scale below it.
  const floor = dimension === 'torque' ? restingTorque_Nm : 0;
  const scaled = (v: number): number => (v < 0 && v > -floor ? 0 : v);
  const seen = counts.flatMap((stretch) => stretch.filter(({ t }) => t >= scaleFrom_s).map(({ v }) => scaled(v)));
  const found = input.events.filter(({ t, until = t }) => until >= scaleFrom_s).map(({ v }) => v);
  const nought = zero !== undefined || dimension === 'torque' ? [0] : [];
  return [...seen, ...found, ...nought, ...(level === undefined ? [] : [level])];
}

/** Faster than this no gear runs out under a stem that stays on it: a wheel turned twice a second with 0.3 mm does half. */
const liftedStem_mm_s = 2;
/** A stem that has come down swings this long. */
const swing_s = 0.15;

/** Since when the stem has stayed on the gear. */
function calmFrom(stretches: readonly Stretch[]): number {
  const lastMoves = stretches.flatMap((stretch) =>
    stretch.slice(1).flatMap(({ t, v }, index) => {
      const before = stretch[index];
      const leapt = before !== undefined && Math.abs(v - before.v) > liftedStem_mm_s * Math.max(t - before.t, 0.02);
      return leapt ? [t + swing_s] : [];
    }),
  );
  const newest = stretches.at(-1)?.at(-1)?.t ?? 0;
  const calm = lastMoves.at(-1) ?? -Infinity;
  return calm < newest ? calm : -Infinity;
}

/** Where zero is, for what is read from it, and the level the stem rests at now with its number. */
function levelElements(input: TraceInput, frame: Frame): readonly Element[] {
  const { left, right, letter, y } = frame;
  const hasZero = input.zero !== undefined || input.dimension === 'torque';
  const nought = hasZero
    ? [path(line({ x: left, y: y(0) }, { x: right, y: y(0) }), { stroke: 'quiet', width: pen(letter, 1.2) })]
    : [];
  if (input.level === undefined) return nought;
  const dashed = [pen(letter, 5), pen(letter, 4)];
  const words = input.levelWords ?? showText(input.level, input.dimension, input.system);
  return [
    ...nought,
    path(line({ x: left, y: y(input.level) }, { x: right, y: y(input.level) }), {
      stroke: 'text',
      width: pen(letter, 1.2),
      dash: dashed,
    }),
    // At the left, where the oldest readings are: at the right the line is being written.
    label(
      words,
      { x: left + letter * 0.5, y: clearOfBand(y(input.level) - letter * 0.5, input.band, frame) },
      frame,
      'start',
    ),
  ];
}

/** Where the line leaves the picture a chevron points after it, at the newest such reading above and below. */
function leavingElements(stretches: readonly Stretch[], { range, x, top, bottom, letter }: Frame): readonly Element[] {
  const readings = stretches.flat();
  const chevron = (t: number, edge: number, way: 1 | -1): Element => {
    const at = x(t);
    const [wide, deep] = [letter * 0.45, letter * 0.4 * way];
    return path(
      polyline([
        { x: at - wide, y: edge + deep },
        { x: at, y: edge },
        { x: at + wide, y: edge + deep },
      ]),
      {
        stroke: 'text',
        width: pen(letter, 1.6),
      },
    );
  };
  const above = readings.findLast(({ v }) => v > range.high);
  const below = readings.findLast(({ v }) => v < range.low);
  return [
    ...(above === undefined ? [] : [chevron(above.t, top - letter * 0.6, 1)]),
    ...(below === undefined ? [] : [chevron(below.t, bottom + letter * 0.6, -1)]),
  ];
}

function bandElements({ band }: TraceInput, frame: Frame): readonly Element[] {
  if (band === undefined || limitValues(band).length === 0) return [];
  const { left, right, top, bottom, letter, y } = frame;
  const upper = band.max === undefined ? top : y(band.max);
  const lower = band.min === undefined ? bottom : y(band.min);
  return [
    path(box(left, upper, right - left, lower - upper), { fill: 'band' }),
    ...limitValues(band).map((limit) =>
      path(line({ x: left, y: y(limit) }, { x: right, y: y(limit) }), { stroke: 'line', width: pen(letter) }),
    ),
  ];
}

/** The limits in numbers, or the two ends of the scale where there are none. */
function scaleElements(input: TraceInput, frame: Frame): readonly Element[] {
  const { left, letter, range, y } = frame;
  const limits = limitValues(input.band);
  const hasZero = input.zero !== undefined || input.dimension === 'torque';
  const ends = limits.length === 0 ? [range.low, range.high] : limits;
  const clear = ends.every((value) => Math.abs(y(value) - y(0)) > letter);
  const values = hasZero && clear ? [0, ...ends] : ends;
  const digits = digitsOf(values, input.dimension, input.system);
  const unit = unitShown(input.dimension, input.system).symbol;
  const style = { ink: 'quiet', anchor: 'end', tabular: true } as const;
  const ticks = values.map((value) =>
    path(line({ x: left - letter * 0.4, y: y(value) }, { x: left, y: y(value) }), {
      stroke: 'quiet',
      width: pen(letter),
    }),
  );
  const written = values.map((value, index) => ({ y: y(value), words: digits[index] ?? '' }));
  return [
    ...ticks,
    ...apartOrTogether(written, letter).map((one) =>
      text(one.words, { x: left - letter * 0.7, y: one.y + letter * 0.32 }, letter * 0.9, style),
    ),
    text(unit, { x: left - letter * 0.7, y: letter * 0.9 }, letter * 0.9, { ...style, tabular: false }),
  ];
}

interface Written {
  readonly y: number;
  readonly words: string;
}

/** Numbers that would stand on each other are written as one, from the lower to the upper. */
function apartOrTogether(numbers: readonly Written[], letter: number): readonly Written[] {
  const written: Written[] = [];
  for (const one of numbers) {
    const before = written.at(-1);
    if (before === undefined || Math.abs(before.y - one.y) > letter * 0.95) written.push(one);
    else written.splice(-1, 1, { y: (before.y + one.y) / 2, words: `${before.words}–${one.words}` });
  }
  return written;
}

/** A measure of time at the lower right: a bar of a round number of seconds. */
function timeElements({ span_s }: TraceInput, { right, bottom, letter, x, to_s }: Frame): readonly Element[] {
  const seconds = niceStep(span_s / 4);
  const y = bottom + letter * 1.2;
  const start = x(to_s - seconds);
  const ends = [start, right].map((end) => line({ x: end, y: y - letter * 0.25 }, { x: end, y: y + letter * 0.25 }));
  return [
    path(line({ x: start, y }, { x: right, y }) + ends.join(''), { stroke: 'quiet', width: pen(letter) }),
    text(`${seconds} s`, { x: start - letter * 0.5, y: y + letter * 0.32 }, letter * 0.9, {
      ink: 'quiet',
      anchor: 'end',
      tabular: true,
    }),
  ];
}

/** One stretch of readings; a lone reading between two gaps is a dot, for a line needs two. */
function stretchElement(stretch: Stretch, frame: Frame): Element {
  const points = stretch.map(({ t, v }) => ({ x: frame.x(t), y: frame.y(v) }));
  const lone = points[0];
  if (points.length === 1 && lone !== undefined) return circle(lone, pen(frame.letter, 1.5), { fill: 'text' });
  return path(polyline(visible(points)), { stroke: 'text', width: pen(frame.letter, 1.8), cap: 'round' });
}

/**
 * Leaves out what no eye tells apart: a point less than a pixel on and less than half a pixel up or down from the one
 * before it. A still gauge is then one point a column, where its noise would make four.
 */
function visible(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  for (const [index, point] of points.entries()) {
    const before = kept.at(-1);
    const moved = before === undefined || point.x - before.x >= 1 || Math.abs(point.y - before.y) >= 0.5;
    if (moved || index === points.length - 1) kept.push(point);
  }
  return kept;
}

type Draw = (event: TraceEvent, input: TraceInput, frame: Frame) => readonly Element[];
type Layer = Partial<Record<TraceEvent['kind'], Draw>>;

function eventElements(layer: Layer, event: TraceEvent, input: TraceInput, frame: Frame): readonly Element[] {
  if ((event.until ?? event.t) < frame.from_s) return [];
  return layer[event.kind]?.(event, input, frame) ?? [];
}

/** A level bar under the stretch in which the gauge stood still. */
const restBar: Draw = ({ t, until = t, v }, _input, { x, y, from_s, letter }) => [
  path(line({ x: x(Math.max(t, from_s)), y: y(v) }, { x: x(until), y: y(v) }), {
    stroke: 'line',
    width: letter * 0.55,
    cap: 'round',
    opacity: 0.55,
  }),
];

/** A tick below the line where a rock was complete. */
const rockTick: Draw = ({ t }, _input, { x, bottom, letter }) => [
  path(line({ x: x(t), y: bottom + letter * 0.2 }, { x: x(t), y: bottom + letter * 0.8 }), {
    stroke: 'text',
    width: pen(letter, 2),
  }),
];

const pressTick: Draw = ({ t }, _input, { x, top, bottom, letter }) => [
  path(line({ x: x(t), y: top }, { x: x(t), y: bottom }), { stroke: 'faint', width: pen(letter, 1.2) }),
];

/** An open ring on the peak and its number beside it. */
const breakawayPeak: Draw = ({ t, v }, input, frame) => {
  const at = { x: frame.x(t), y: frame.y(v) };
  const words = `breakaway ${showText(v, input.dimension, input.system)}`;
  return [
    circle(at, frame.letter * 0.4, { stroke: 'text', width: pen(frame.letter, 1.6) }),
    label(words, { x: at.x + frame.letter * 0.8, y: at.y + frame.letter * 0.1 }, frame, 'start'),
  ];
};

/** The mean over the stretch it was taken from, lifted off the ripple it runs through. */
const runningBar: Draw = ({ t, until = t, v, state }, input, frame) => {
  const { x, y, from_s, letter } = frame;
  const [start, end] = [x(Math.max(t, from_s)), x(until)];
  const bar = line({ x: start, y: y(v) }, { x: end, y: y(v) });
  const words = `running ${showText(v, input.dimension, input.system)}`;
  return [
    path(bar, { stroke: 'ground', width: letter * 0.42, cap: 'round' }),
    path(bar, { stroke: state === undefined ? 'text' : stateInk(state), width: letter * 0.24, cap: 'round' }),
    label(words, { x: end, y: clearOfBand(y(v) - letter * 1.1, input.band, frame) }, frame, 'end'),
  ];
};

/** Lifts a baseline above the band's upper edge where it would be struck through by it. */
function clearOfBand(baseline: number, band: Limits | undefined, { y, letter }: Frame): number {
  if (band?.max === undefined) return baseline;
  const edge = y(band.max);
  return baseline - letter < edge && edge < baseline + letter * 1.2 ? edge - letter * 0.45 : baseline;
}

const label = (words: string, at: Point, { letter }: Frame, anchor: Anchor): Element =>
  text(words, at, letter, { tabular: true, weight: 500, anchor });

const under: Layer = { rest: restBar, press: pressTick };
const over: Layer = { rock: rockTick, breakaway: breakawayPeak, running: runningBar };

function traceDescription(input: TraceInput, stretches: readonly Stretch[]): string {
  const gaps = Math.max(0, stretches.length - 1);
  const last = stretches.at(-1)?.at(-1);
  const shown = (value: number): string => showText(value, input.dimension, input.system);
  const counted = (kind: TraceEvent['kind']): number => input.events.filter((event) => event.kind === kind).length;
  const peaks = input.events
    .filter(({ kind }) => kind === 'breakaway' || kind === 'running')
    .map(({ kind, v }) => ` ${kind === 'running' ? 'Running' : 'Breakaway'} ${shown(v)}.`);
  return [
    last === undefined ? 'No readings yet.' : `Last reading ${shown(last.v)}.`,
    counted('rest') > 0 ? ` Rests: ${counted('rest')}.` : '',
    counted('rock') > 0 ? ` Rocks: ${counted('rock')}.` : '',
    ...peaks,
    gaps > 0 ? ` Gaps: ${gaps}.` : '',
  ].join('');
}
