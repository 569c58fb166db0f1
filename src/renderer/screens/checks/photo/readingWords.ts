import type { MarkWithArea } from '../../../../shared/axle/mark/describeMask.ts';
import { edgeNames } from '../../../../shared/axle/mark/mark.ts';

/** The four corners in the order in which they are tapped. */
export const cornerNames = ['toe and root', 'toe and crown', 'heel and crown', 'heel and root'] as const;

export const nextCorner = (tapped: number): string =>
  `Tap where ${cornerNames[tapped] ?? cornerNames[0]} meet (${tapped + 1} of 4)`;

const percent = (fraction: number): number => Math.round(Math.abs(fraction) * 100);

/** Where a mark lies, with how sure that is, in percent of face and height. */
export function markNumbers({ heel, crown, U95, area, edges }: MarkWithArea): string {
  const sure = (share: number | undefined): string => (share === undefined ? '' : ` ±${Math.max(1, percent(share))} %`);
  const reached = edgeNames.filter((edge) => edges[edge] !== 'clear').map((edge) => `${edge} ${edges[edge]}`);
  return [
    `Centre ${percent(heel)} % of the face to the ${heel < 0 ? 'toe' : 'heel'}${sure(U95?.heel)}`,
    `${percent(crown)} % of the height ${crown < 0 ? 'below' : 'above'} the middle${sure(U95?.crown)}`,
    `covers ${percent(area)} % of the flank`,
    reached.length === 0 ? 'clear of every edge' : reached.join(', '),
  ].join('; ');
}
