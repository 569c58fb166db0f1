import type { LineFormat } from '../../../shared/gauges/lineFormat.ts';
import { ok, type Result } from '../../../shared/basics/result.ts';
import { frameFor } from './frame.ts';
import { layoutFor } from './layout.ts';
import { refuse } from './refuse.ts';

/** The units in which simulated gauges measure, by their UCUM codes; the first is the usual one. */
export const unitsOf = { indicator: ['mm', '[in_i]'], torque: ['N.m', '[lbf_av].[in_i]'] } as const;
export type GaugeKind = keyof typeof unitsOf;
type GaugeUnit = (typeof unitsOf)[GaugeKind][number];

/** What such gauges commonly write for a unit, show as their last digit, and can have before the decimal sign. */
export const usual: Readonly<
  Record<GaugeUnit, { readonly word: string; readonly decimals: number; readonly digits: number }>
> = {
  mm: { word: 'mm', decimals: 3, digits: 1 },
  '[in_i]': { word: 'in', decimals: 4, digits: 1 },
  'N.m': { word: 'Nm', decimals: 2, digits: 2 },
  '[lbf_av].[in_i]': { word: 'in-lb', decimals: 1, digits: 3 },
};

/** How a simulated gauge has to be made and has to write, so that its lines are of a given format. */
export interface GaugeWriting {
  readonly unit: GaugeUnit;
  readonly resolution: number;
  /** −1 where the format turns the sign back. */
  readonly sign: 1 | -1;
  readonly shape: LineShapeFor;
}

/** The shape of its lines, in the words of the simulated gauges, which share no code with the bench. */
interface LineShapeFor {
  readonly number: {
    readonly form: 'fixed' | 'NR1';
    readonly decimalSign: '.' | ',';
    readonly plus: boolean;
    readonly leadingZero: boolean;
    readonly signGap: number;
    readonly width: number;
    readonly fill: ' ' | '0';
  };
  readonly unit: {
    readonly place: 'before' | 'after' | 'none';
    readonly gap: string;
    readonly words: Readonly<Record<GaugeUnit, string>>;
  };
  readonly label: string;
  readonly fieldsBefore: readonly string[];
  readonly fieldsAfter: readonly string[];
  readonly separator: string;
  readonly axes: readonly [];
  readonly framed: boolean;
  readonly check: 'none' | 'sum' | 'xor';
  readonly counter: boolean;
  readonly end: '\r\n' | '\r' | '\n' | '';
  readonly words: { readonly overload: string; readonly lowBattery: string; readonly error: string };
}

/**
 * The other way round from reading: the gauge whose lines a format describes. Some formats describe lines that no
 * simulated gauge writes; the problem names the field.
 */
export function writingFor(format: LineFormat, kind: GaugeKind): Result<GaugeWriting> {
  const unit = unitOf(format, kind);
  if (unit === undefined)
    return refuse('unit.ucum', `a simulated ${kind} gauge measures in ${unitsOf[kind].join(' or ')}`);
  if (format.sign === 'trailing') return refuse('sign', 'a simulated gauge writes its sign before the number');
  const decimals = format.decimals ?? format.impliedDecimals ?? usual[unit].decimals;
  if (format.impliedDecimals !== undefined && format.impliedDecimals !== decimals)
    return refuse('decimals', 'it differs from impliedDecimals');
  const frame = frameFor(format);
  if (!frame.ok) return frame;
  const words = unitWords(format);
  const digits = usual[unit].digits + (format.impliedDecimals === undefined ? point(decimals) : decimals);
  const layout = layoutFor(format, { ...frame.value, unitWord: words[unit], words, least: digits + 1 });
  if (!layout.ok) return layout;
  const { width, ...placed } = layout.value;
  const implied = format.impliedDecimals !== undefined;
  return ok({
    unit,
    resolution: Number(`1e-${decimals}`),
    sign: format.turnSign ? -1 : 1,
    shape: {
      ...placed,
      number: {
        form: implied ? 'NR1' : 'fixed',
        decimalSign: format.decimal === ',' ? ',' : '.',
        plus: true,
        leadingZero: true,
        signGap: 0,
        width: implied && width === 0 ? digits + 1 : width,
        fill: implied ? '0' : ' ',
      },
      axes: [],
      framed: frame.value.framed,
      check: frame.value.check,
      counter: false,
      end: frame.value.end,
      words: {
        overload: format.words?.overload[0] ?? 'OVER',
        lowBattery: format.words?.lowBattery[0] ?? 'BATTERY',
        error: format.words?.error[0] ?? 'ERROR',
      },
    },
  });
}

/** Characters of the decimal sign and the decimals. */
const point = (decimals: number): number => (decimals === 0 ? 0 : decimals + 1);

function unitOf({ unit }: LineFormat, kind: GaugeKind): GaugeUnit | undefined {
  const possible: readonly GaugeUnit[] = unitsOf[kind];
  if (unit.is === 'fixed') return possible.find((code) => code === unit.ucum);
  const named = unit.is === 'not-sent' ? [] : Object.values(unit.words ?? {});
  return possible.find((code) => named.includes(code)) ?? possible[0];
}

/** The gauge's own word for each unit where the format has one. */
function unitWords({ unit }: LineFormat): Readonly<Record<GaugeUnit, string>> {
  const own = unit.is === 'beside' || unit.is === 'placed' ? Object.entries(unit.words ?? {}) : [];
  const word = (code: GaugeUnit): string => own.find(([, ucum]) => ucum === code)?.[0] ?? usual[code].word;
  return {
    mm: word('mm'),
    '[in_i]': word('[in_i]'),
    'N.m': word('N.m'),
    '[lbf_av].[in_i]': word('[lbf_av].[in_i]'),
  };
}
