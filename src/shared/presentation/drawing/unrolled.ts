import { showText, unitShown } from '../../basics/show.ts';
import { isNone } from '../../basics/result.ts';
import { box, line, polyline } from './paths.ts';
import { drawnTogether, type RingInput, type RingRunout, type RingStation } from './ringInput.ts';
import { extremes, neighbours } from './ringExtremes.ts';
import { deviationsOf } from './ringRunout.ts';
import { ringDescription } from './ringWords.ts';
import { digitsOf, limitValues, type Range, rangeFor, shareOf } from './scale.ts';
import { type Element, path, pen, type Scene, text } from './scene.ts';
import { stateInk, stateMark } from './states.ts';

/** Where one quantity is drawn: from the left to the right the whole turn, upwards its value. */
interface Band {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly range: Range;
  readonly x: (angle_deg: number) => number;
  readonly y: (value_mm: number) => number;
}

/**
 * The ring gear cut open at station 1 and laid out flat, from the data that draw the ring ({@link ringScene}): the ring says
 * where, this says how much. Backlash above, runout below, both on one angle.
 */
export function unrolledScene(given: RingInput): Scene {
  const input = drawnTogether(given);
  const { width, height } = input.size;
  const [values, runout] = bandsOf(input);
  const elements = [
    ...(values === undefined ? [] : valueElements(input, values)),
    ...(runout === undefined || input.runout === undefined ? [] : runoutElements(input, input.runout, runout)),
    ...angleElements(input, runout ?? values),
  ];
  return { width, height, elements, title: `${input.quantity}, unrolled`, description: ringDescription(given) };
}

/** A single quantity gets the whole height that two would share. */
function bandsOf(input: RingInput): readonly [Band | undefined, Band | undefined] {
  const { width, height, text: letter } = input.size;
  const [left, right] = [letter * 4.6, width - letter * 0.6];
  const [top, bottom] = [letter * 0.8, height - letter * 2.9];
  const inset = letter * 0.9;
  const x = (angle_deg: number): number => left + inset + (angle_deg / 360) * (right - left - 2 * inset);
  const band = (from: number, to: number, range: Range): Band => ({
    left,
    right,
    top: from,
    bottom: to,
    range,
    x,
    y: (value) => to - Math.min(1, Math.max(0, shareOf(value, range))) * (to - from),
  });
  const hasValues = input.stations.length > 0 || input.limits !== undefined;
  const values = hasValues ? rangeFor(measuredIn(input), input.limits, 'length', input.system) : undefined;
  if (input.runout === undefined) return [values === undefined ? undefined : band(top, bottom, values), undefined];
  const half = (Math.max(input.runout.tir_mm, input.runout.limit_mm ?? 0, leastSpan_mm) / 2) * 1.15;
  const around = { low: -half, high: half };
  if (values === undefined) return [undefined, band(top, bottom, around)];
  const middle = top + (bottom - top) * 0.6;
  return [band(top, middle - letter * 0.5, values), band(middle + letter * 0.5, bottom, around)];
}

/** Below this full movement runout is not stretched: gauge noise must not look like a warped gear. */
const leastSpan_mm = 0.03;

const measuredIn = ({ stations, live }: RingInput): readonly number[] => [
  ...stations.flatMap(({ value_mm, U95_mm = 0 }) => (isNone(value_mm) ? [] : [value_mm - U95_mm, value_mm + U95_mm])),
  ...(live === undefined ? [] : [live.value_mm]),
];

function valueElements(input: RingInput, band: Band): readonly Element[] {
  return [
    ...windowElements(input, band),
    ...joining(input, band),
    ...input.stations.flatMap((station) => stationElements(station, input, band)),
    ...extremeWords(input, band),
  ];
}

/** The window as a band with its limits written at the left, or the ends of the scale where there is none. */
function windowElements({ limits, system, size }: RingInput, band: Band): readonly Element[] {
  const { left, right, top, bottom, range, y } = band;
  const letter = size.text;
  const written = limitValues(limits);
  const shown = written.length === 0 ? [range.low, range.high] : written;
  const upper = limits?.max === undefined ? top : y(limits.max);
  const lower = limits?.min === undefined ? bottom : y(limits.min);
  const filled = written.length === 0 ? [] : [path(box(left, upper, right - left, lower - upper), { fill: 'band' })];
  const lines = written.map((limit) =>
    path(line({ x: left, y: y(limit) }, { x: right, y: y(limit) }), { stroke: 'line', width: pen(letter, 1.4) }),
  );
  return [...filled, ...lines, ...scaleWords(shown, { system, letter }, band)];
}

/** Values at the left of a band, the unit with the uppermost. */
function scaleWords(
  values: readonly number[],
  { system, letter }: { readonly system: RingInput['system']; readonly letter: number },
  { left, y }: Band,
): readonly Element[] {
  const digits = digitsOf(values, 'length', system);
  const unit = unitShown('length', system).symbol;
  return values.map((value, index) =>
    text(
      index === values.length - 1 ? `${digits[index] ?? ''} ${unit}` : (digits[index] ?? ''),
      { x: left - letter * 0.6, y: y(value) + letter * 0.33 },
      letter * 0.9,
      {
        ink: 'quiet',
        anchor: 'end',
        tabular: true,
      },
    ),
  );
}

/** From station to station and on to the first again; where a station has no number the line is open. */
function joining({ stations, size }: RingInput, { x, y }: Band): readonly Element[] {
  const d = neighbours(stations)
    .map(({ from, to }) =>
      line(
        { x: x(from.angle_deg), y: y(from.value_mm) },
        { x: x(to.angle_deg + (to.angle_deg <= from.angle_deg ? 360 : 0)), y: y(to.value_mm) },
      ),
    )
    .join('');
  return d === '' ? [] : [path(d, { stroke: 'quiet', width: pen(size.text, 1.4) })];
}

/** The reading with its uncertainty beside it as on the ring; where there is no number the ring stands at the foot. */
function stationElements(
  { angle_deg, value_mm, U95_mm = 0, state }: RingStation,
  { size }: RingInput,
  { x, y, bottom }: Band,
): readonly Element[] {
  const letter = size.text;
  const mark = letter * 1.1;
  if (isNone(value_mm)) return stateMark(state, { x: x(angle_deg), y: bottom - mark * 0.6 }, mark);
  const at = { x: x(angle_deg), y: y(value_mm) };
  const beside = at.x + mark * 0.85;
  const ends = [y(value_mm - U95_mm), y(value_mm + U95_mm)] as const;
  const cap = (end: number): string => line({ x: beside - mark * 0.18, y: end }, { x: beside + mark * 0.18, y: end });
  const bar = line({ x: beside, y: ends[0] }, { x: beside, y: ends[1] }) + ends.map(cap).join('');
  return [
    ...(U95_mm > 0 ? [path(bar, { stroke: stateInk(state), width: mark * 0.1 })] : []),
    ...stateMark(state, at, mark),
  ];
}

/** Which station reads largest and which smallest, above and below their marks. */
function extremeWords(input: RingInput, { x, y }: Band): readonly Element[] {
  const letter = input.size.text;
  return extremes(input.stations).map(({ station, words, value_mm }) =>
    text(
      words,
      {
        x: x(station.angle_deg),
        y: Math.max(letter * 0.8, y(value_mm) + (words === 'high' ? -letter * 0.85 : letter * 1.5)),
      },
      letter * 0.9,
      { anchor: station.angle_deg < 12 ? 'start' : 'middle', ink: 'text', weight: 500 },
    ),
  );
}

/** The gear's deviation about its own middle, its limit as a band, its full movement and its high spot in numbers. */
function runoutElements({ size, system }: RingInput, runout: RingRunout, band: Band): readonly Element[] {
  const { left, right, x, y } = band;
  const letter = size.text;
  const half = runout.limit_mm === undefined ? undefined : runout.limit_mm / 2;
  const curve = deviationsOf(runout).map(({ angle_deg, value_mm }) => ({ x: x(angle_deg), y: y(value_mm) }));
  const beside = { ink: 'quiet', anchor: 'end', tabular: true } as const;
  const middle = y(0) + letter * 0.33;
  return [
    ...(half === undefined ? [] : [path(box(left, y(half), right - left, y(-half) - y(half)), { fill: 'band' })]),
    path(line({ x: left, y: y(0) }, { x: right, y: y(0) }), {
      stroke: 'line',
      width: pen(letter),
      dash: [pen(letter), pen(letter, 3)],
    }),
    path(polyline(curve), { stroke: 'text', width: pen(letter, 1.8) }),
    text('runout', { x: left - letter * 0.6, y: middle - letter * 0.5 }, letter * 0.8, beside),
    text(
      showText(runout.tir_mm, 'length', system).split(' ')[0] ?? '',
      { x: left - letter * 0.6, y: middle + letter * 0.5 },
      letter * 0.9,
      { ...beside, ink: 'text' },
    ),
    ...highSpotElements(runout, letter, band),
  ];
}

function highSpotElements({ highSpot_deg }: RingRunout, letter: number, { x, top, bottom }: Band): readonly Element[] {
  if (highSpot_deg === undefined) return [];
  const at = x(highSpot_deg);
  const nearEnd = highSpot_deg > 300;
  return [
    path(line({ x: at, y: top }, { x: at, y: bottom }), {
      stroke: 'text',
      width: pen(letter),
      dash: [pen(letter, 5), pen(letter, 3)],
    }),
    text(
      `high ${Math.round(highSpot_deg)}°`,
      { x: at + letter * (nearEnd ? -0.4 : 0.4), y: bottom - letter * 0.3 },
      letter * 0.9,
      {
        anchor: nearEnd ? 'end' : 'start',
        tabular: true,
      },
    ),
  ];
}

/** A tick for every tooth, and below it each station's number, or quarters of the turn where there are no stations. */
function angleElements(input: RingInput, band: Band | undefined): readonly Element[] {
  if (band === undefined) return [];
  const { left, right, bottom, x } = band;
  const letter = input.size.text;
  const foot = bottom + letter * 0.35;
  const ticks = Array.from({ length: input.teeth }, (_, tooth) => {
    const at = x(((tooth + 0.5) * 360) / input.teeth);
    return line({ x: at, y: foot }, { x: at, y: foot + letter * 0.45 });
  });
  return [
    path(line({ x: left, y: foot }, { x: right, y: foot }) + ticks.join(''), { stroke: 'line', width: pen(letter) }),
    ...placesOf(input).map(({ angle_deg, words, next }) =>
      text(words, { x: x(angle_deg), y: foot + letter * 1.7 }, letter, {
        anchor: angle_deg > 350 ? 'end' : 'middle',
        tabular: true,
        weight: next ? 700 : 500,
        ink: next ? 'accent' : 'text',
      }),
    ),
  ];
}

/** Most stations that can be numbered one beside the other. */
const mostNumbered = 24;

function placesOf({ stations, next }: RingInput) {
  if (stations.length === 0 || stations.length > mostNumbered)
    return [0, 90, 180, 270].map((angle_deg) => ({ angle_deg, words: `${angle_deg}°`, next: false }));
  return stations.map(({ number, angle_deg }) => ({ angle_deg, words: String(number), next: number === next }));
}
