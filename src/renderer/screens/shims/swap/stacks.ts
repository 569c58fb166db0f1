import { mm } from '../../../../shared/basics/quantity.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import { type ShimDrawer, sizesFor, useOf } from '../../../../shared/job/records/drawer.ts';
import type { SwapLine } from '../../../../shared/job/records/swap.ts';
import { type Stack, type StackAnswer, stackFor } from '../../../../shared/axle/drawer.ts';
import { packTolerance_mm } from '../../../../shared/job/swap/packFault.ts';

/** The stack for a line from the drawer; none while the drawer is empty for that use or its numbers cannot be used. */
export function stackOf(drawer: ShimDrawer | undefined, line: SwapLine): StackAnswer | undefined {
  const sizes = drawer === undefined ? [] : sizesFor(drawer, useOf(line.place));
  if (sizes.length === 0) return undefined;
  const answer = stackFor(sizes, mm(line.wanted_mm), mm(packTolerance_mm));
  return answer.ok ? answer.value : undefined;
}

/** What the drawer has for it, or what to buy. */
export function stackWords(answer: StackAnswer | undefined, system: UnitSystem): string {
  if (answer === undefined) return 'No sizes for it are entered in the drawer.';
  if (answer.fits) return `From the drawer: ${shimsWords(answer.stack, system)}.`;
  const { nearest, buy } = answer;
  const beside = buy.with.shims.length === 0 ? '' : ` to go with ${shimsWords(buy.with, system)}`;
  const best = nearest.shims.length === 0 ? '' : ` The nearest it has is ${length(nearest.total, system)}.`;
  return `Nothing in the drawer makes it.${best} A shim of ${length(buy.thickness, system)} is missing${beside}.`;
}

const shimsWords = ({ shims }: Stack, system: UnitSystem): string =>
  shims.map((shim) => length(shim, system)).join(' + ');

const length = (size: number, system: UnitSystem): string => showText(size, 'length', system);
