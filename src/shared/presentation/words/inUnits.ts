import { showText, type UnitSystem } from '../../basics/show.ts';

/** "0.20 mm", or the first number of "0.15 to 0.25 mm" and "from 0.15, 0.20 and 0.25 mm". */
const lengths = /(?<![\d.])(\d+\.\d+)(?=(?:(?: to |, | and |–)\d+\.\d+)*(?: mm| mm\b))( mm\b)?/gu;

/**
 * A sentence of the plan, which counts in millimetres, in the units of the session: what is read aloud at the stand must be
 * what the micrometer there shows. Only decimal numbers that "mm" belongs to are changed.
 */
export function inUnits(sentence: string, system: UnitSystem): string {
  if (system === 'metric') return sentence;
  return sentence.replace(lengths, (_, digits: string, unit: string | undefined) => {
    const shown = showText(Number(digits), 'length', system);
    return unit === undefined ? shown.slice(0, shown.indexOf(' ')) : shown;
  });
}
