import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import type { ConfirmedResult, Locking, oilUnits } from '../../../../shared/job/records/measurement.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { ok } from '../../../../shared/basics/result.ts';
import { type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';

/** An answer while it is being given, with what some answers say besides. */
export interface ConfirmDraft {
  readonly yes: boolean;
  readonly note: string;
  readonly counted: string;
  readonly lockedBy: Locking | undefined;
  readonly oil: string;
  readonly amount: string;
  readonly unit: (typeof oilUnits)[number];
}

/** What is asked besides yes or no. */
export type Details = 'bolts' | 'nut' | 'oil' | 'none';

export const detailsOf = (check: CheckId): Details =>
  ({ 'bolts-locked': 'bolts', 'nut-locked': 'nut', oil: 'oil' } as const)[check as string] ?? 'none';

/** @param bolts of the ring gear, as far as they were counted when the axle was described. */
export const blankConfirm = (bolts: number | undefined, system: UnitSystem = 'metric'): ConfirmDraft => ({
  yes: true,
  note: '',
  counted: bolts === undefined ? '' : String(bolts),
  lockedBy: undefined,
  oil: '',
  amount: '',
  unit: system === 'inch' ? '[qt_us]' : 'L',
});

export type ConfirmErrors = FieldErrors<'counted' | 'oil' | 'amount'>;

/** The answer a draft stands for; with a no nothing else is asked. */
export function readDetails(draft: ConfirmDraft, details: Details): DraftRead<ConfirmedResult, ConfirmErrors> {
  const note = draft.note.trim() === '' ? {} : { note: draft.note.trim() };
  const plain = { kind: 'confirmed' as const, yes: draft.yes, ...note };
  if (!draft.yes || details === 'none') return ok(plain);
  const lockedBy = draft.lockedBy === undefined ? {} : { lockedBy: draft.lockedBy };
  if (details === 'nut') return ok({ ...plain, ...lockedBy });
  if (details === 'bolts') {
    const counted = Number(draft.counted);
    if (!(Number.isInteger(counted) && counted >= 4 && counted <= 40))
      return wrong({ counted: 'Count them: 4 to 40.' });
    return ok({ ...plain, counted, ...lockedBy });
  }
  return readOil(draft, plain);
}

function readOil(
  { oil, amount, unit }: ConfirmDraft,
  plain: ConfirmedResult,
): DraftRead<ConfirmedResult, ConfirmErrors> {
  const value = Number(amount.replace(',', '.'));
  if (oil.trim() === '') return wrong({ oil: 'Which oil, as the maker names it.' });
  if (!(value > 0 && value <= 200)) return wrong({ amount: 'How much went in.' });
  return ok({ ...plain, oil: { name: oil.trim(), amount: { value, unit } } });
}
