import { showText, type UnitSystem } from '../../basics/show.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import type { ConvertedLimit } from '../../job/gear/convertedLimit.ts';
import { basisWords } from '../../job/checks/judge.ts';
import { limitBasisWords, limitWords } from './limits.ts';

/** A limit of another basis beside a reading: told as a conversion, with the doubt of it, and said not to judge. */
export function convertedWords(converted: ConvertedLimit, to: BacklashBasis, system: UnitSystem): string {
  const { limit, share } = converted;
  const doubt = share === 0 ? '' : `, give or take ${Math.ceil(200 * share)} %`;
  return [
    `The limit is ${limitWords(limit, system)} ${limitBasisWords(limit)}.`,
    `Converted, that is ${spanWords(converted, system)} ${basisWords(to)}${doubt}.`,
    'A conversion shows the way and does not judge.',
  ].join(' ');
}

function spanWords({ min_mm, max_mm }: ConvertedLimit, system: UnitSystem): string {
  const shown = (value: number): string => showText(value, 'length', system);
  if (min_mm !== undefined && max_mm !== undefined) return `${shown(min_mm)} to ${shown(max_mm)}`;
  return max_mm === undefined ? `at least ${shown(min_mm ?? 0)}` : `at most ${shown(max_mm)}`;
}
