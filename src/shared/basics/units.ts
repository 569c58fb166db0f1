/**
 * Units by their UCUM code, each with its exact factor to the unit used inside (mm, N·m, N, rad).
 * Factors: 1 in = 25.4 mm exactly; lbf = 4.4482216152605 N exactly (standard gravity × international pound);
 * kgf = 9.80665 N exactly.
 */
export type Dimension = 'length' | 'torque' | 'force' | 'angle';

export interface Unit {
  /** UCUM code, the form used in files. */
  readonly ucum: string;
  readonly dimension: Dimension;
  /** Multiply a value in this unit by this to get mm, N·m or rad. */
  readonly factor: number;
  /** As shown to a person. */
  readonly symbol: string;
  /** Spellings accepted on the command line, from gauges and from typing (compared without case). */
  readonly spellings: readonly string[];
}

const poundForce = 4.4482216152605;
const inch = 0.0254;
const kilogramForce = 9.80665;

export const units = {
  mm: { ucum: 'mm', dimension: 'length', factor: 1, symbol: 'mm', spellings: ['mm', 'millimetre', 'millimeter'] },
  um: { ucum: 'um', dimension: 'length', factor: 1e-3, symbol: 'µm', spellings: ['um', 'µm', 'μm', 'micron'] },
  in: { ucum: '[in_i]', dimension: 'length', factor: 25.4, symbol: 'in', spellings: ['in', 'inch', '"', '[in_i]'] },
  Nm: { ucum: 'N.m', dimension: 'torque', factor: 1, symbol: 'N·m', spellings: ['nm', 'n.m', 'n·m', 'n-m', 'n*m'] },
  Ncm: { ucum: 'N.cm', dimension: 'torque', factor: 0.01, symbol: 'N·cm', spellings: ['ncm', 'n.cm', 'n·cm', 'n-cm'] },
  inLb: {
    ucum: '[lbf_av].[in_i]',
    dimension: 'torque',
    factor: poundForce * inch,
    symbol: 'in-lb',
    spellings: ['in-lb', 'in.lb', 'inlb', 'lb-in', 'lbf.in', 'lbf·in', 'lbf-in', 'in-lbf', '[lbf_av].[in_i]'],
  },
  ftLb: {
    ucum: '[lbf_av].[ft_i]',
    dimension: 'torque',
    factor: poundForce * 12 * inch,
    symbol: 'lb-ft',
    spellings: ['lb-ft', 'ft-lb', 'ftlb', 'lbft', 'lbf.ft', 'lbf·ft', 'lbf-ft', 'ft-lbf', '[lbf_av].[ft_i]'],
  },
  N: { ucum: 'N', dimension: 'force', factor: 1, symbol: 'N', spellings: ['n', 'newton'] },
  lbf: { ucum: '[lbf_av]', dimension: 'force', factor: poundForce, symbol: 'lbf', spellings: ['lbf', '[lbf_av]'] },
  kgf: { ucum: 'kgf', dimension: 'force', factor: kilogramForce, symbol: 'kgf', spellings: ['kgf', 'kp'] },
  deg: {
    ucum: 'deg',
    dimension: 'angle',
    factor: Math.PI / 180,
    symbol: '°',
    spellings: ['deg', '°', 'degree', 'degrees'],
  },
} as const satisfies Record<string, Unit>;

const every: readonly Unit[] = Object.values(units);
const bySpelling = new Map(
  every.flatMap((unit) => [unit.ucum, ...unit.spellings].map((word) => [word.toLowerCase(), unit] as const)),
);

/** The unit a word stands for (UCUM code or a spelling, any case), or undefined when nobody here knows it. */
export const unitNamed = (word: string): Unit | undefined => bySpelling.get(word.trim().toLowerCase());

/** `value` in `unit`, as the number used inside for that dimension (mm, N·m, N, rad). */
export const toInside = (value: number, unit: Unit): number => value * unit.factor;

/** The inverse of {@link toInside}. */
export const fromInside = (value: number, unit: Unit): number => value / unit.factor;
