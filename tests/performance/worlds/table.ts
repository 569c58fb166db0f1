import type { World } from '../../../hardware-sim/worlds/world.ts';
import type { Tally } from './tally.ts';

/** What a world asks for, printed beside what came. */
export const targets = { covered_percent: 93, givenWhereHonest_percent: 80, wrongSilent: 0 } as const;

/** The row of one world in two lines: figures first, then what is believed there. */
export function row({ name, honest, belief }: World, found: Tally): string {
  const { figures, given, covered, wrongSilent, wrongFlagged, withinOnNone, miscounted, medianU95, error95 } = found;
  const misses = missed(honest, found);
  const figuresOf = [
    `given ${percent(given, figures)} of ${figures}`,
    `covered ${percent(covered, given)}`,
    `beyond 3 U95 silent ${wrongSilent}, flagged ${wrongFlagged}`,
    ...(withinOnNone > 0 ? [`"within" on no number ${withinOnNone}`] : []),
    ...(miscounted > 0 ? [`scenes miscounted ${miscounted}`] : []),
    `median U95 ${medianU95.toFixed(4)}, error (95th percentile) ${error95.toFixed(4)}`,
    ...(misses.length === 0 ? [] : [`MISSES: ${misses.join(', ')}`]),
  ];
  const why = [
    ...(found.refused.size === 0 ? [] : [`refused: ${words(found.refused)}`]),
    ...(found.flags.size === 0 ? [] : [`flags: ${words(found.flags)}`]),
  ];
  return [`${name}${honest ? ' (h)' : ''}: ${figuresOf.join('; ')}`, `    ${[belief, ...why].join(' | ')}`].join('\n');
}

/** Which targets this row does not reach. */
export function missed(honest: boolean, { figures, given, covered, wrongSilent, withinOnNone }: Tally): string[] {
  return [
    ...(given > 0 && (100 * covered) / given < targets.covered_percent ? ['cover'] : []),
    ...(honest && (100 * given) / figures < targets.givenWhereHonest_percent ? ['given'] : []),
    ...(wrongSilent > targets.wrongSilent ? ['wrong without a word'] : []),
    ...(withinOnNone > 0 ? ['verdict'] : []),
  ];
}

const percent = (part: number, whole: number): string =>
  whole === 0 ? 'none' : `${((100 * part) / whole).toFixed(1)} %`;

const words = (counts: ReadonlyMap<string, number>): string =>
  [...counts].map(([word, count]) => `${word} ${count}`).join(', ');
