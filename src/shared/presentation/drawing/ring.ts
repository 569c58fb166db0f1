import { showText, unitShown } from '../../basics/show.ts';
import { isNone } from '../../basics/result.ts';
import { annulus, arc, clockPoint, line } from './paths.ts';
import { extremes, neighbours } from './ringExtremes.ts';
import { drawnTogether, type RingInput, type RingStation } from './ringInput.ts';
import {
  freeAngle,
  layoutOf,
  numberAngles,
  type RadialScale,
  type RingLayout,
  valueScale,
  writtenValues,
} from './ringLayout.ts';
import { highSpotElements, runoutElements, runoutNumbers } from './ringRunout.ts';
import { ringDescription } from './ringWords.ts';
import { digitsOf } from './scale.ts';
import type { Ink } from './inks.ts';
import { circle, type Element, path, pen, type Point, roughWidth, type Scene, text } from './scene.ts';
import { stateInk, stateMark } from './states.ts';

/**
 * The ring gear seen from its teeth: a graduation of one tick per tooth, the stations at their angles, and each
 * value drawn outwards on a radial scale with its uncertainty, against the window as a band. Runout lies inside
 * it on the same angles, so that one look shows whether backlash follows it.
 */
export function ringScene(given: RingInput): Scene {
  const input = drawnTogether(given);
  const layout = layoutOf(input);
  const axis_deg = freeAngle(input.stations.map(({ angle_deg }) => angle_deg));
  const scale = layout.values === undefined ? undefined : valueScale(input, layout.values);
  const elements = [
    ...toothElements(layout, input.teeth),
    ...(scale === undefined ? [] : scaleElements(input, layout, scale)),
    ...(scale === undefined ? [] : joining(input.stations, layout, scale)),
    ...(input.runout === undefined ? [] : runoutElements(input.runout, layout, { axis_deg, system: input.system })),
    ...(input.runout === undefined ? [] : highSpotElements(input.runout, layout)),
    ...(input.runout === undefined ? [] : runoutNumbers(input, input.runout, layout)),
    ...input.stations.flatMap((station) => stationElements(station, input, layout, scale)),
    ...(scale === undefined ? [] : liveElements(input, layout, scale)),
    ...centreElements(input, layout),
  ];
  const { width, height } = input.size;
  return {
    width,
    height,
    elements,
    title: `${input.quantity} around the ring gear`,
    description: ringDescription(given),
  };
}

function toothElements({ centre, heel, toe, text: letter }: RingLayout, teeth: number): readonly Element[] {
  const gap = (heel - toe) * 0.16;
  const ticks = Array.from({ length: teeth }, (_, tooth) => {
    const angle = ((tooth + 0.5) * 360) / teeth;
    return line(clockPoint(centre, toe + gap, angle), clockPoint(centre, heel - gap, angle));
  });
  return [
    path(annulus(centre, toe, heel), { fill: 'metal' }),
    path(ticks.join(''), { stroke: 'line', width: pen(letter, 1.4) }),
    circle(centre, heel, { stroke: 'line', width: pen(letter, 1.4) }),
    circle(centre, toe, { stroke: 'line', width: pen(letter) }),
  ];
}

/** Letters that a lane must be wide for the numbers of its circles. */
const leastLane = 3.4;

/** The band between the limits, and the circles whose values are written into them as on a contour map. */
function scaleElements(input: RingInput, layout: RingLayout, scale: RadialScale): readonly Element[] {
  const { centre, text: letter } = layout;
  const written = writtenValues(scale, input.limits, letter * 1.3);
  // A lane this narrow has no room for numbers beside its marks; they stand at the strip or in the list.
  const narrow = scale.lane.outer - scale.lane.inner < letter * leastLane;
  const digits = digitsOf(written, 'length', input.system);
  const unit = unitShown('length', input.system).symbol;
  const angles = numberAngles(
    written.map((value) => scale.radius(value)),
    input.stations.map(({ angle_deg }) => angle_deg),
    letter * 1.15,
  );
  return [
    ...bandElements(input, centre, scale),
    ...(written.includes(scale.range.low)
      ? []
      : [circle(centre, scale.lane.inner, { stroke: 'faint', width: pen(letter) })]),
    ...written.flatMap((value, index) => {
      // The unit stands on the innermost circle: on the outermost the longer word would run over the teeth.
      const words = narrow ? '' : index === 0 ? `${digits[index] ?? ''} ${unit}` : (digits[index] ?? '');
      return writtenCircle(layout, {
        words,
        radius: scale.radius(value),
        axis_deg: angles[index] ?? 0,
        size: letter * 0.9,
      });
    }),
  ];
}

/** Words on a circle, at an angle of the ring. */
interface Written {
  readonly words: string;
  readonly radius: number;
  readonly axis_deg: number;
  readonly size: number;
}

/** A circle with its value standing in a gap of its line, inwards of it where the words would run over the teeth. */
function writtenCircle({ centre, toe }: RingLayout, { words, radius, axis_deg, size }: Written): readonly Element[] {
  const half = roughWidth(words, size) / 2;
  if (words === '') return [circle(centre, radius, { stroke: 'line', width: pen(size, 1.1) })];
  const half_deg = (Math.atan2(half + size * 0.3, radius) * 180) / Math.PI;
  const axis = (axis_deg * Math.PI) / 180;
  const reach = half * Math.abs(Math.sin(axis)) + size * 0.5 * Math.abs(Math.cos(axis));
  const at = clockPoint(centre, Math.min(radius, toe - reach), axis_deg);
  return [
    path(arc(centre, radius, axis_deg + half_deg, axis_deg + 360 - half_deg), {
      stroke: 'line',
      width: pen(size, 1.1),
    }),
    text(words, { x: at.x, y: at.y + size * 0.36 }, size, { anchor: 'middle', ink: 'quiet', tabular: true }),
  ];
}

function bandElements({ limits }: RingInput, centre: Point, scale: RadialScale): readonly Element[] {
  if (limits === undefined) return [];
  const inner = limits.min === undefined ? scale.lane.inner : scale.radius(limits.min);
  const outer = limits.max === undefined ? scale.lane.outer : scale.radius(limits.max);
  return [path(annulus(centre, inner, outer), { fill: 'band' })];
}

/** A quiet line from each station to the next with a number, so that the run of the values round the gear is one shape. */
function joining(
  stations: readonly RingStation[],
  { centre, text: letter }: RingLayout,
  scale: RadialScale,
): readonly Element[] {
  const at = ({ angle_deg, value_mm }: { readonly angle_deg: number; readonly value_mm: number }): Point =>
    clockPoint(centre, scale.radius(value_mm), angle_deg);
  const d = neighbours(stations)
    .map(({ from, to }) => line(at(from), at(to)))
    .join('');
  return d === '' ? [] : [path(d, { stroke: 'quiet', width: pen(letter, 1.4) })];
}

function stationElements(
  station: RingStation,
  input: RingInput,
  layout: RingLayout,
  scale: RadialScale | undefined,
): readonly Element[] {
  return [
    ...(station.number === input.next ? nextTooth(station, layout) : []),
    ...(scale === undefined ? [] : readingElements(station, input.stations.length, layout, scale)),
    ...(isNamed(station, input) ? stationLabel(station, input, layout) : []),
  ];
}

/** The tooth to go to next. */
const nextTooth = ({ angle_deg }: RingStation, { centre, heel, toe, text: letter }: RingLayout): readonly Element[] => [
  path(line(clockPoint(centre, toe, angle_deg), clockPoint(centre, heel, angle_deg)), {
    stroke: 'accent',
    width: letter * 0.5,
  }),
];

/** The reading on its spoke; where there is no number the ring sits on the teeth, not at a value. */
function readingElements(
  station: RingStation,
  count: number,
  layout: RingLayout,
  scale: RadialScale,
): readonly Element[] {
  const { centre, text: letter } = layout;
  const { angle_deg, value_mm, U95_mm = 0, state } = station;
  const spoke = line(clockPoint(centre, scale.lane.inner, angle_deg), clockPoint(centre, layout.toe, angle_deg));
  const faint = path(spoke, { stroke: 'faint', width: pen(letter) });
  const size = markSize(layout, scale, count);
  if (isNone(value_mm)) {
    return [faint, ...stateMark(state, clockPoint(centre, (scale.lane.outer + layout.toe) / 2, angle_deg), size)];
  }
  const bar = U95_mm > 0 ? [uncertaintyBar({ value_mm, U95_mm, size }, station, layout, scale)] : [];
  return [faint, ...bar, ...stateMark(state, clockPoint(centre, scale.radius(value_mm), angle_deg), size)];
}

/** Beside the mark like a dimension on a drawing, so that a small uncertainty is not hidden by it. */
function uncertaintyBar(
  { value_mm, U95_mm, size }: { readonly value_mm: number; readonly U95_mm: number; readonly size: number },
  { angle_deg, state }: RingStation,
  { centre }: RingLayout,
  scale: RadialScale,
): Element {
  const turned = (offset: number): number => (Math.atan2(offset, scale.radius(value_mm)) * 180) / Math.PI;
  const at_deg = angle_deg + turned(size * 0.78);
  const half_deg = turned(size * 0.18);
  const [inner, outer] = [scale.radius(value_mm - U95_mm), scale.radius(value_mm + U95_mm)];
  const bar = line(clockPoint(centre, inner, at_deg), clockPoint(centre, outer, at_deg));
  const ends = [inner, outer].map((radius) => arc(centre, radius, at_deg - half_deg, at_deg + half_deg));
  return path(bar + ends.join(''), { stroke: stateInk(state), width: size * 0.085 });
}

/** Marks shrink where many stations share the circle, so that each still stands alone. */
function markSize({ text: letter }: RingLayout, { lane }: RadialScale, count: number): number {
  const apart = (Math.PI * (lane.inner + lane.outer)) / Math.max(1, count);
  return Math.min(letter * 1.3, apart * 0.42);
}

/** More numbers than this would lie on each other. */
const mostNumbers = 24;

/** Every station where there are few, else every second, third …, and the one to go to next. */
function isNamed({ number }: RingStation, { stations, next }: RingInput): boolean {
  const each = Math.ceil(stations.length / mostNumbers);
  return number === next || (number - 1) % each === 0;
}

/** The station's number, and its value where there are few enough stations for the words to stand apart. */
function stationLabel(station: RingStation, input: RingInput, layout: RingLayout): readonly Element[] {
  const { text: letter, heel } = layout;
  const lines = labelLines(station, input);
  const turn = (station.angle_deg * Math.PI) / 180;
  const rim = clockPoint(layout.centre, heel + letter * 0.75, station.angle_deg);
  const numberInk = station.number === input.next ? 'accent' : 'text';
  const valueInk = station.state === 'within' ? 'quiet' : stateInk(station.state);
  if (Math.abs(Math.sin(turn)) < 0.3)
    return labelInLine(lines, rim, { numberInk, valueInk, letter, up: Math.cos(turn) > 0 });
  const block = lines.length * letter * 1.15;
  const top = rim.y - block / 2 - (Math.cos(turn) * block) / 2;
  const anchor = Math.sin(turn) > 0 ? 'start' : 'end';
  return lines.map((words, index) =>
    text(words, { x: rim.x, y: top + letter * (0.88 + index * 1.15) }, letter, {
      anchor,
      tabular: true,
      ink: index === 0 ? numberInk : valueInk,
      weight: index === 0 ? 700 : 500,
    }),
  );
}

interface InLine {
  readonly numberInk: Ink;
  readonly valueInk: Ink;
  readonly letter: number;
  /** Above the ring; else below it. */
  readonly up: boolean;
}

/** Above and below the ring number and value share a line: a second one would be taken off the ring twice. */
function labelInLine(
  [number = '', value]: readonly string[],
  rim: Point,
  { numberInk, valueInk, letter, up }: InLine,
): readonly Element[] {
  const y = rim.y + (up ? 0 : letter * 0.75);
  const bold = { tabular: true, ink: numberInk, weight: 700 } as const;
  if (value === undefined) return [text(number, { x: rim.x, y }, letter, { ...bold, anchor: 'middle' })];
  // Where the two meet, so that both together stand in the middle.
  const meet = rim.x + (roughWidth(number, letter) - roughWidth(value, letter)) / 2;
  return [
    text(number, { x: meet - letter * 0.25, y }, letter, { ...bold, anchor: 'end' }),
    text(value, { x: meet + letter * 0.25, y }, letter, { tabular: true, ink: valueInk, weight: 500, anchor: 'start' }),
  ];
}

const fewStations = 12;

function labelLines(station: RingStation, input: RingInput): readonly string[] {
  const number = String(station.number);
  if (isNone(station.value_mm) || input.stations.length > fewStations) return [number];
  const digits = showText(station.value_mm, 'length', input.system).split(' ')[0] ?? '';
  const end = extremes(input.stations).find((one) => one.station === station);
  return [end === undefined ? number : `${number} ${end.words}`, digits];
}

/** The hand at its angle, or a whole circle where the angle is not measured. */
function liveElements({ live }: RingInput, layout: RingLayout, scale: RadialScale): readonly Element[] {
  if (live === undefined) return [];
  const { centre, text: letter } = layout;
  const r = scale.radius(live.value_mm);
  if (live.angle_deg === undefined) return [circle(centre, r, { stroke: 'text', width: pen(letter, 2) })];
  const hand = line(clockPoint(centre, scale.lane.inner, live.angle_deg), clockPoint(centre, r, live.angle_deg));
  return [
    path(hand, { stroke: 'text', width: pen(letter, 2), cap: 'round' }),
    circle(clockPoint(centre, r, live.angle_deg), letter * 0.32, { fill: 'text' }),
  ];
}

/** Words in the core are set smaller than other letters down to this share of them, and left out below it. */
const leastShare = 0.7;

/** The number the ring adds up to, as large as the core lets it be, with its words beneath. */
function centreElements({ centre: words }: RingInput, layout: RingLayout): readonly Element[] {
  if (words === undefined) return [];
  const { centre, text: letter, core } = layout;
  const digits = words.digits ?? '';
  const longest = Math.max(...words.words.map((line) => roughWidth(line, letter)), 1);
  // With runout inside the stations the core is too small for words that could be read; the numbers stand beside the ring.
  if ((core * 2) / longest < leastShare) return [];
  const size = digits === '' ? 0 : Math.min(core * 0.95, (core * 1.7) / (digits.length * 0.62));
  const block = size * 0.75 + words.words.length * letter * 1.25 + (words.unit === undefined ? 0 : letter * 0.2);
  const base = centre.y - block / 2 + size * 0.75;
  const big = text(digits, { x: centre.x, y: base }, size, { anchor: 'middle', weight: 600, tabular: true });
  const under = [...(words.unit === undefined ? [] : [words.unit]), ...words.words];
  return [
    ...(digits === '' ? [] : [big]),
    ...under.map((line, index) => {
      const fitting = Math.min(letter, (core * 2) / roughWidth(line, 1));
      return text(line, { x: centre.x, y: base + letter * (1.3 + index * 1.25) }, fitting, {
        anchor: 'middle',
        ink: 'quiet',
      });
    }),
  ];
}
