import { isReadOnce, readOnce } from '../../job/captures/readOnce.ts';
import { show, showText, type UnitSystem, unitShown } from '../../basics/show.ts';
import type { Dimension } from '../../basics/units.ts';
import type { BacklashResult, RunoutResult, StationResult, TorqueResult } from '../../job/records/measurement.ts';
import { isNone, type OrNone } from '../../basics/result.ts';
import { basisWords } from '../../job/checks/judge.ts';
import { reasonShort } from '../words/refusals.ts';
import { orReason, withDoubt } from '../words/results.ts';
import { stateWords } from '../drawing/states.ts';
import type { CertificateAssembly, CertificateContent } from './content.ts';
import { limitFor, standOf, stationAngle } from '../drawing/stations.ts';
import {
  type Block,
  type Cell,
  cell,
  figureColumn,
  heading,
  type TableBlock,
  words,
  wordColumn,
  type WordsBlock,
} from './page.ts';

const digits = (value: OrNone<number>, dimension: Dimension, system: UnitSystem): string =>
  isNone(value) ? '–' : show(value, dimension, system).digits;

/** Every station with its reading, uncertainty and standing, and what they add up to. */
export function stationTable(
  { specSheet }: Pick<CertificateContent, 'specSheet'>,
  result: BacklashResult,
  system: UnitSystem,
): readonly (TableBlock | WordsBlock)[] {
  const unit = unitShown('length', system).symbol;
  const limit = limitFor(specSheet, 'backlash', result.basis);
  const row = (station: StationResult): readonly Cell[] => {
    const state = standOf(station, limit, specSheet);
    const reason = isNone(station.value_mm) ? reasonShort(station.value_mm.none) : undefined;
    const word = state === 'recorded' ? 'no limit' : state === 'too-close' ? 'too close to call' : stateWords[state];
    return [
      cell(String(station.number)),
      cell(`${Math.round(stationAngle(station.number, result.stations.length, station.gearAngle_deg))}°`),
      cell(digits(station.value_mm, 'length', system)),
      cell(digits(station.U95_mm, 'length', system)),
      cell(isReadOnce(station) ? '–' : String(station.rocks)),
      cell(reason ?? word, { shape: state }),
    ];
  };
  return [
    {
      kind: 'table',
      columns: [
        figureColumn('Station'),
        figureColumn('At'),
        figureColumn(`Reading, ${unit}`),
        figureColumn(`± U95, ${unit}`),
        figureColumn('Rocks'),
        wordColumn('Standing'),
      ],
      rows: result.stations.map(row),
    },
    words(summary(result, system), 'quiet'),
    ...flagged(result),
  ];
}

/** The same in few rows: stations beside each other, so many that their figures still find room. */
export function stationsAcross(
  { specSheet }: Pick<CertificateContent, 'specSheet'>,
  result: BacklashResult,
  system: UnitSystem,
): readonly (TableBlock | WordsBlock)[] {
  const unit = unitShown('length', system).symbol;
  const limit = limitFor(specSheet, 'backlash', result.basis);
  const across = result.stations.length <= 4 ? 2 : 3;
  const rows = Math.ceil(result.stations.length / across);
  const of = (station: StationResult | undefined): readonly Cell[] => {
    if (station === undefined) return [cell(''), cell(''), cell('')];
    const state = standOf(station, limit, specSheet);
    const reason = isNone(station.value_mm) ? reasonShort(station.value_mm.none) : undefined;
    const angle = Math.round(stationAngle(station.number, result.stations.length, station.gearAngle_deg));
    return [
      cell(`${station.number} at ${angle}°`),
      cell(reason ?? digits(station.value_mm, 'length', system), { shape: state, ...stationWord(state) }),
      cell(digits(station.U95_mm, 'length', system)),
    ];
  };
  return [
    {
      kind: 'table',
      columns: Array.from({ length: across }, () => [
        wordColumn('Station', 1.3),
        wordColumn(`Reading, ${unit}`, 1.5),
        wordColumn('± U95', 0.9),
      ]).flat(),
      rows: Array.from({ length: rows }, (_, row) =>
        Array.from({ length: across }, (__, column) => of(result.stations[column * rows + row])).flat(),
      ),
    },
    words(summary(result, system), 'quiet'),
    ...flagged(result),
  ];
}

/** Its shape says that a station is within; whatever else it is, words say it too. */
const stationWord = (state: ReturnType<typeof standOf>): { readonly under?: string } => {
  if (state === 'within' || state === 'not-measured') return {};
  return { under: state === 'recorded' ? 'no limit' : state === 'too-close' ? 'too close to call' : stateWords[state] };
};

/** What the stations add up to; where one has no number, the reason once instead of four times. */
function summary(result: BacklashResult, system: UnitSystem): string {
  const { mean_mm, min_mm, max_mm, variation_mm, basis } = result;
  const felt = `Felt ${basisWords(basis)}.`;
  if (isNone(mean_mm)) return `No mean and no variation: ${reasonShort(mean_mm.none)}. ${felt}`;
  const said = [
    `Mean ${withDoubt(mean_mm, result.meanU95_mm, 'length', system)}`,
    `smallest ${orReason(min_mm, 'length', system)}`,
    `largest ${orReason(max_mm, 'length', system)}`,
    `variation ${withDoubt(variation_mm, result.variationU95_mm, 'length', system)}`,
  ];
  const once = result.stations.some(isReadOnce)
    ? ' Each read once off a dial: its doubt is the step of the scale alone.'
    : '';
  return `${said.join(', ')}. ${felt}${once}`;
}

/** Flags and refusals in the words measuring gave them, so that nothing about a station stays unsaid. */
const flagged = ({ stations }: BacklashResult): readonly WordsBlock[] =>
  stations.flatMap((station) => {
    // What holds of every station alike is said once, under the table.
    const flags = station.flags.filter((flag) => flag !== readOnce);
    if (flags.length === 0 && station.why === undefined) return [];
    const why = station.why ?? `${flags.map(reasonShort).join(', ')}.`;
    return [words(`Station ${station.number}: ${why}`, 'quiet')];
  });

const runoutNames = { 'ring-gear-runout': 'Ring gear', 'flange-runout': 'Case flange' } as const;

/** Runouts of an assembly: indicator movement, what it is made of, and each station's reading. */
export function runoutBlocks(assembly: CertificateAssembly, system: UnitSystem): readonly Block[] {
  const found = assembly.checks.flatMap(({ check, measurement }) =>
    measurement?.result.kind === 'runout' && check in runoutNames
      ? [[runoutNames[check as keyof typeof runoutNames], measurement.result] as const]
      : [],
  );
  if (found.length === 0) return [];
  const unit = unitShown('length', system).symbol;
  return [
    heading(3, 'Runout'),
    {
      kind: 'table',
      columns: [
        wordColumn('Surface', 2),
        figureColumn(`TIR, ${unit}`),
        figureColumn(`± U95, ${unit}`),
        figureColumn(`Once a turn, ${unit}`),
        figureColumn('High spot'),
        figureColumn(`Twice a turn, ${unit}`),
        figureColumn(`Rest, ${unit}`),
      ],
      rows: found.map(([name, result]) => runoutRow(name, result, system)),
    },
    ...found.flatMap(([name, result]) => runoutReadings(name, result, system)),
  ];
}

function runoutRow(name: string, result: RunoutResult, system: UnitSystem): readonly Cell[] {
  const harmonic = (order: number) =>
    isNone(result.harmonics) ? undefined : result.harmonics.find((one) => one.order === order);
  const [first, second] = [harmonic(1), harmonic(2)];
  const amplitude = (one: typeof first): Cell =>
    cell(one === undefined ? '–' : digits(one.amplitude_mm, 'length', system));
  return [
    cell(name, shapeWords(result, system)),
    cell(isNone(result.tir_mm) ? reasonShort(result.tir_mm.none) : digits(result.tir_mm, 'length', system)),
    cell(digits(result.U95_mm, 'length', system)),
    amplitude(first),
    cell(first === undefined ? '–' : `${Math.round(first.highSpot_deg)}°`),
    amplitude(second),
    cell(digits(result.residual_mm, 'length', system)),
  ];
}

const shapeUnder: Readonly<Record<RunoutResult['shape'], string>> = {
  eccentric: 'mostly off centre',
  burr: 'one place stands out',
  warp: 'mostly warped',
  mixed: 'of several kinds',
  unknown: '',
};

function shapeWords(result: RunoutResult, system: UnitSystem): { readonly under?: string } {
  if (isReadOnce(result)) return { under: reasonShort(readOnce) };
  const { shape, burr } = result;
  const words = shapeUnder[shape];
  if (words === '') return {};
  if (burr === undefined) return { under: words };
  return { under: `${words}: ${showText(burr.height_mm, 'length', system)} at ${Math.round(burr.angle_deg)}°` };
}

function runoutReadings(name: string, result: RunoutResult, system: UnitSystem): readonly Block[] {
  if (result.stations.length === 0) return [];
  const unit = unitShown('length', system).symbol;
  const readings = result.stations.map(({ number, angle_deg, value_mm }) => {
    const at = angle_deg === undefined ? '' : ` at ${Math.round(angle_deg)}°`;
    return `${number}${at}: ${digits(value_mm, 'length', system)}`;
  });
  return [words(`${name}, readings at the stations in ${unit}: ${readings.join('; ')}.`, 'quiet')];
}

const torqueNames = { 'pinion-torque': 'Pinion', 'total-torque': 'Total' } as const;

/** Rotating torques of an assembly; breakaway is kept apart from running. */
export function torqueBlocks(assembly: CertificateAssembly, system: UnitSystem): readonly Block[] {
  const found = assembly.checks.flatMap(({ check, measurement }) =>
    measurement?.result.kind === 'torque' && check in torqueNames
      ? [[torqueNames[check as keyof typeof torqueNames], measurement.result] as const]
      : [],
  );
  if (found.length === 0) return [];
  const unit = unitShown('torque', system).symbol;
  return [
    heading(3, 'Rotating torque'),
    {
      kind: 'table',
      columns: [
        wordColumn('Which', 2),
        figureColumn(`Running, ${unit}`),
        figureColumn(`± U95, ${unit}`),
        figureColumn(`Breakaway, ${unit}`),
        figureColumn(`± U95, ${unit}`),
        figureColumn(`Ripple, ${unit}`),
        figureColumn(`Change, ${unit}`),
        wordColumn('Average over', 0),
      ],
      rows: found.map(([name, result]) => torqueRow(name, result, system)),
    },
  ];
}

function torqueRow(name: string, result: TorqueResult, system: UnitSystem): readonly Cell[] {
  const { running_Nm, U95_Nm, breakaway_Nm, breakawayU95_Nm, ripple_Nm, drift_Nm, basis } = result;
  return [
    cell(name, { under: `seal ${basis.seal}, ${basis.bearings} bearings` }),
    ...[running_Nm, U95_Nm, breakaway_Nm, breakawayU95_Nm, ripple_Nm, drift_Nm].map((value) =>
      cell(digits(value, 'torque', system)),
    ),
    cell(averageWords(result)),
  ];
}

function averageWords({ average, turns }: TorqueResult): string {
  if (average === 'read-once') return 'read once';
  if (average !== 'whole-turns') return average === 'time' ? 'time' : 'part of a turn';
  return turns === 1 ? '1 whole turn' : `${turns} whole turns`;
}
