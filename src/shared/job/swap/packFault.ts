import { mm } from '../../basics/quantity.ts';
import { showText, type UnitSystem } from '../../basics/show.ts';
import { insideOf } from '../../basics/recorded.ts';
import type { ShimPlace } from '../../axle/makeUp.ts';
import type { SwapLine } from '../records/swap.ts';
import { judgePack } from '../../axle/drawer.ts';
import { placeNames } from './makeSwap.ts';

/** A pack counts as the one wanted within this: half a thousandth of an inch, about what two readings of a micrometer differ by (own choice). */
export const packTolerance_mm = 0.0127;

/**
 * What is wrong with a measured pack, in one sentence, before anything is put together.
 * @returns nothing where it is the pack that the card asks for.
 */
export function packFault(
  measured_mm: number,
  line: SwapLine,
  lines: readonly SwapLine[],
  system: UnitSystem,
): string | undefined {
  const verdict = judgePack(mm(measured_mm), mm(line.wanted_mm), mm(packTolerance_mm));
  if (verdict === 'fits') return undefined;
  const off = Math.abs(measured_mm - line.wanted_mm);
  return `This ${placeNames[line.place]} pack is ${length(off, system)} ${verdict}${likely(measured_mm, line, lines, system)}.`;
}

const length = (size: number, system: UnitSystem): string => showText(size, 'length', system);

/** The usual ways in which a pack comes out wrong, each with its own trace in the number. */
function likely(measured: number, line: SwapLine, lines: readonly SwapLine[], system: UnitSystem): string {
  const out = insideOf(line.out);
  if (is(measured, out)) return ': it is the pack that came out';
  if (is(measured, 2 * out - line.wanted_mm)) {
    const thinner = line.wanted_mm < out;
    const [wrong, right] = thinner ? ['thicker', 'thinner'] : ['thinner', 'thicker'];
    return `: the change went the wrong way, ${length(Math.abs(out - line.wanted_mm), system)} ${wrong} instead of ${right}`;
  }
  const other = lines.find(
    ({ place, wanted_mm }) => isSide(place) && isSide(line.place) && place !== line.place && is(measured, wanted_mm),
  );
  if (other !== undefined) return `: it is the pack for the ${placeNames[other.place]}, so the two sides are exchanged`;
  if (is(measured, line.wanted_mm / 25.4) || is(measured, line.wanted_mm * 25.4)) {
    return ': inches and millimetres look mixed';
  }
  const change = Math.abs(line.wanted_mm - out);
  if (is(Math.abs(measured - line.wanted_mm), change)) return ': the change was made twice';
  return '; choose another shim, never grind one';
}

const is = (a: number, b: number): boolean => Math.abs(a - b) <= packTolerance_mm;
const isSide = (place: ShimPlace): boolean => place === 'ring-side' || place === 'opposite-side';
