import type { How, MeasuredResult } from '../../../../shared/job/records/measurement.ts';
import type { DraftRead } from '../../../parts/draft.ts';
import { type DraftForm, useDraft, useHeld } from '../../../parts/useDraft.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import type { CheckProps } from '../check/checkProps.ts';

/** A typed or seen reading as the notebook takes it. */
interface TypedEntry {
  readonly how: How;
  readonly result: MeasuredResult;
}

interface TypedFormOptions<Draft, Errors extends object> {
  readonly start: () => Draft;
  readonly read: (draft: Draft) => DraftRead<TypedEntry, Errors>;
}

/** A form whose reading is written into the notebook as a measurement of its check. */
export function useTypedForm<Draft extends object, Errors extends object>(
  { assembly, check }: CheckProps,
  { start, read }: TypedFormOptions<Draft, Errors>,
): DraftForm<Draft, TypedEntry, Errors> {
  return useDraft(useHeld(start), {
    read,
    keep: (entry) => writeDeed({ kind: 'measured', assembly: assembly.id, check: check.id, ...entry }),
  });
}
