import { mm, newtonMetres, type Length, type Torque } from '../../../../shared/basics/quantity.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import { type QuantityDraft, readDraft } from '../../../parts/quantity.ts';

/** A typed length or torque as the sums want it; nothing while it is not there or not readable. */
export function lengthIn(draft: QuantityDraft): Length | undefined {
  const read = draft.text.trim() === '' ? undefined : readDraft(draft, 'length', 'length');
  return read?.ok === true ? mm(insideOf(read.value)) : undefined;
}

export function torqueIn(draft: QuantityDraft): Torque | undefined {
  const read = draft.text.trim() === '' ? undefined : readDraft(draft, 'torque', 'torque');
  return read?.ok === true ? newtonMetres(insideOf(read.value)) : undefined;
}

/** A signed number without a unit of its own: a mark, notches, a pointer. A true minus sign counts as one. */
export function numberIn(text: string): number | undefined {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return plain === '' || !Number.isFinite(Number(plain)) ? undefined : Number(plain);
}
