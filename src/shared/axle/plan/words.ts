import type { Edge, Mark } from '../mark/mark.ts';

/** "0.20 mm": hundredths, as packs are measured and screens show them; finer steps keep their thousandth. */
export function millimetres(value: number): string {
  const size = Math.abs(value);
  const fine = Math.abs(size * 100 - Math.round(size * 100)) > 0.05;
  return `${size.toFixed(fine ? 3 : 2)} mm`;
}

/** The same without its unit, where the next figure has it. */
export const bare = (value: number): string => millimetres(value).replace(' mm', '');

export { listed } from '../../basics/listed.ts';

/** Edges that a mark reaches, those of height first. */
export const reached = (mark: Mark): readonly Edge[] => byWeight.filter((edge) => mark.edges[edge] !== 'clear');

const byWeight: readonly Edge[] = ['root', 'crown', 'toe', 'heel'];

/** "in 85 of 100" : chances are told in fives, because they are no better known. */
export const inHundred = (chance: number): string => `${Math.min(95, Math.max(5, Math.round(chance * 20) * 5))} of 100`;

/** Heights as shares of the flank from its middle, towards the crown positive. */
export const signed = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
