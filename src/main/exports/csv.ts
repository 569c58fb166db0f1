import { isNone, type OrNone } from '../../shared/basics/result.ts';
import { insideOf } from '../../shared/basics/recorded.ts';
import { assemblyName, type Build, type Measurement, readNotebook } from '../../shared/job/records/build.ts';
import type { MeasuredResult } from '../../shared/job/records/measurement.ts';
import { endsOf, limitedQuantities } from '../../shared/job/records/specSheet.ts';
import { type Judged, judgedOf } from '../../shared/job/certifying/certificateData.ts';
import { entriesCertified } from '../../shared/job/certifying/certificateData.ts';
import { issueOf } from '../certificate/issue.ts';
import { resultBrief } from '../../shared/presentation/words/results.ts';
import type { ExportedFile, Source } from './source.ts';

/** A build as tables for other programs: every figure measured, and every reading behind the streamed ones. */
export function csvFiles(source: Source, title: string): readonly ExportedFile[] {
  const { csv } = issueOf(source.database, source.notebook, source.identity);
  return [
    { name: `${title}-measurements.csv`, bytes: measurementsCsv(source) },
    { name: `${title}-readings.csv`, bytes: csv },
  ];
}

/** Units in the heads are UCUM's; a column holds one unit and nothing else. Times are those of the record. */
const heads = [
  'assembly',
  'check',
  'place',
  'value[mm]',
  'U95[mm]',
  'value[N.m]',
  'U95[N.m]',
  'words',
  'standing',
  'limit_min',
  'limit_max',
  'limit_unit',
  'source',
  'taken_at',
  'by',
  'taken_with',
] as const;

type Column = (typeof heads)[number];
type Line = Partial<Record<Column, string | number>>;

/** One line a figure, RFC 4180 with CRLF; what counts as well as what was taken again. */
export function measurementsCsv({ notebook }: Pick<Source, 'notebook'>): string {
  const entries = entriesCertified(notebook);
  const build = readNotebook(notebook.id, entries);
  const lines = linesOf(build, judgedOf(build));
  return [heads.join(','), ...lines.map((line) => heads.map((head) => csvField(line[head])).join(','))]
    .map((line) => `${line}\r\n`)
    .join('');
}

function linesOf(build: Build, judged: Judged): readonly Line[] {
  return build.assemblies.flatMap((assembly) =>
    assembly.measurements.flatMap((measurement) => {
      const said = judged.assemblies
        .find(({ id }) => id === assembly.id)
        ?.checks.find((check) => check.measurement === measurement.id);
      const common: Line = {
        assembly: assemblyName(assembly),
        check: measurement.check,
        standing: said?.standing ?? 'taken again',
        taken_at: measurement.at,
        by: measurement.by,
        taken_with: takenWith(measurement),
      };
      return figuresOf(measurement.result).map((figure) => ({ ...common, ...limitOf(said, figure), ...figure }));
    }),
  );
}

function takenWith({ how }: Measurement): string {
  if (how.kind === 'seen') return 'seen';
  return how.kind === 'typed' ? `typed: ${how.tool}` : how.gauge.label;
}

/** The limit a figure is held against: how much backlash varies has one of its own, and a standing of its own. */
function limitOf(said: Judged['assemblies'][number]['checks'][number] | undefined, { place }: Line): Line {
  const varies = place === 'variation';
  const judged = said?.limits.find(
    ({ otherBasis, limit: one }) => otherBasis !== true && (one.quantity === 'backlash-variation') === varies,
  );
  if (varies && said !== undefined && judged === undefined) return { standing: 'no limit entered' };
  const limit = judged?.limit;
  if (limit === undefined) return {};
  const { min, max } = endsOf(limit);
  return {
    ...(min === undefined ? {} : { limit_min: plain(min) }),
    ...(max === undefined ? {} : { limit_max: plain(max) }),
    limit_unit: limitedQuantities[limit.quantity] === 'torque' ? 'N.m' : 'mm',
    source: limit.source,
    ...(varies && judged !== undefined ? { standing: judged.verdict } : {}),
  };
}

/** Nobody's gauge reads picometres: the noise of binary sums is left out. */
const plain = (value: number): number => Number(value.toFixed(9));

const length = (place: string, value: OrNone<number>, U95: OrNone<number> = { none: '' }): Line =>
  isNone(value)
    ? { place, words: value.none }
    : { place, 'value[mm]': plain(value), ...(isNone(U95) ? {} : { 'U95[mm]': plain(U95) }) };

const torque = (place: string, value: OrNone<number>, U95: OrNone<number> = { none: '' }): Line =>
  isNone(value)
    ? { place, words: value.none }
    : { place, 'value[N.m]': plain(value), ...(isNone(U95) ? {} : { 'U95[N.m]': plain(U95) }) };

/** Every figure of a result, each with the place it belongs to. */
function figuresOf(result: MeasuredResult): readonly Line[] {
  switch (result.kind) {
    case 'backlash':
      return [
        ...result.stations.flatMap(({ number, value_mm, U95_mm, each_mm = [] }) => [
          length(`station ${number}`, value_mm, U95_mm),
          ...each_mm.map((rock, index) => length(`station ${number}, rock ${index + 1}`, rock)),
        ]),
        length('mean', result.mean_mm, result.meanU95_mm),
        length('variation', result.variation_mm, result.variationU95_mm),
      ];
    case 'runout':
      return [
        length('full indicator movement', result.tir_mm, result.U95_mm),
        ...result.stations.map(({ number, value_mm }) => length(`station ${number}`, value_mm)),
      ];
    case 'torque':
      return [
        torque('running', result.running_Nm, result.U95_Nm),
        torque('breakaway', result.breakaway_Nm, result.breakawayU95_Nm),
      ];
    default:
      return [wordsOf(result)];
  }
}

/** What is typed once or seen: its number where it has one, and the words of the bench for everything else. */
function wordsOf(result: MeasuredResult): Line {
  if (result.kind === 'quantity')
    return isTorque(result.value.unit) ? torque('', insideOf(result.value)) : length('', insideOf(result.value));
  if (result.kind === 'shims')
    return { words: result.packs.map(({ place, pack }) => `${place} ${pack.value} ${pack.unit}`).join('; ') };
  const note = result.kind === 'confirmed' ? (result.note ?? '') : '';
  return { words: [resultBrief(result, 'metric'), note].filter((one) => one !== '').join(': ') };
}

/** UCUM codes of torque hold a force and a length; those of length alone do not. */
const isTorque = (unit: string): boolean => unit.includes('N.m') || unit.includes('lbf');

/**
 * One field of RFC 4180. Words that a spreadsheet would take for a formula have an apostrophe before them, which spreadsheets
 * do not show; numbers are left alone.
 */
export function csvField(value: string | number | undefined): string {
  if (value === undefined) return '';
  if (typeof value === 'number') return String(value);
  const safe = /^[-=+@\t\r]/u.test(value) ? `'${value}` : value;
  return /[",\r\n]/u.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
