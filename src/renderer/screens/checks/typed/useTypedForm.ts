import type { How, MeasuredResult } from '../../../../shared/job/records/measurement.ts';
import type { DraftRead } from '../../../parts/draft.ts';
import type { Measure } from '../../../parts/quantity.ts';
import { type DraftForm, useDraft, useHeld } from '../../../parts/useDraft.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { goOnAfter } from '../check/goOn.ts';
import { streamOf } from '../../../../shared/job/checks/checks.ts';
import { forgetUnfinished } from '../check/useUnfinished.ts';
import { withToolEntered } from './enterTool.ts';

/** A typed or seen reading as the notebook takes it. */
interface TypedEntry {
  readonly how: How;
  /** As it is, or worked out from how it was read: a tool the shop knows keeps the step of its scale that was entered first. */
  readonly result: MeasuredResult | ((how: How) => MeasuredResult);
}

interface TypedFormOptions<Draft, Errors extends object> {
  /** What the tool of this reading measures; a reading without one was seen, not read off. */
  readonly measure?: Measure;
  readonly start: () => Draft;
  readonly read: (draft: Draft) => DraftRead<TypedEntry, Errors>;
}

/** A form whose reading is written into the notebook as a measurement of its check; what needs no look leads on. */
export function useTypedForm<Draft extends object, Errors extends object>(
  { assembly, check }: CheckProps,
  { measure, start, read }: TypedFormOptions<Draft, Errors>,
): DraftForm<Draft, TypedEntry, Errors> {
  return useDraft(useHeld(start), {
    read,
    keep: async ({ how, result }) => {
      const entered = measure === undefined ? how : await withToolEntered(how, measure);
      const whole = typeof result === 'function' ? result(entered) : result;
      const entry = { assembly: assembly.id, check: check.id, how: entered, result: whole };
      const written = await writeDeed({ kind: 'measured', ...entry });
      // What was begun with a gauge and given up for this is not offered again, as after a recording.
      if (written && streamOf[check.method] !== undefined) void forgetUnfinished({ assembly, check });
      if (written) goOnAfter(assembly.id, check.id);
      return written;
    },
  });
}
