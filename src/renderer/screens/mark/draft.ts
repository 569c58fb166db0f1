import type { Assembly, Build } from '../../../shared/records/build.ts';
import { latest } from '../../../shared/records/build.ts';
import type { MarkResult } from '../../../shared/records/measurement.ts';
import type { Mark } from '../../../shared/pattern/mark.ts';
import { fail, isNone, ok, type Result } from '../../../shared/result.ts';

export type Side = 'drive' | 'coast';
export const sides: readonly Side[] = ['drive', 'coast'];

/** What is drawn on one flank: a mark, nothing found there, or nothing drawn yet. */
export type SideDraft = Mark | 'no-mark' | undefined;

export interface MarkDraft {
  readonly drive: SideDraft;
  readonly coast: SideDraft;
  readonly judgement: MarkResult['judgement'] | undefined;
  readonly note: string;
}

/** As found there is nothing to decide yet: the mark is recorded, and for a used set it is the target. */
export const blankMark = (assembly: Assembly): MarkDraft => ({
  drive: undefined,
  coast: undefined,
  judgement: assembly.phase === 'as-found' ? 'recorded' : undefined,
  note: '',
});

const sideOf = (side: MarkResult['drive']): SideDraft => (isNone(side) ? 'no-mark' : side);

export const markDraftOf = (result: MarkResult): MarkDraft => ({
  drive: sideOf(result.drive),
  coast: sideOf(result.coast),
  judgement: result.judgement,
  note: result.note ?? '',
});

/** The mark an assembly has in the notebook. */
export function markResultOf(assembly: Assembly | undefined): MarkResult | undefined {
  const result = assembly === undefined ? undefined : latest(assembly, 'mark')?.result;
  return result?.kind === 'mark' ? result : undefined;
}

/** The mark as it was before anything was loosened. */
export const markAsFound = (build: Build): MarkResult | undefined =>
  markResultOf(build.assemblies.findLast((assembly) => assembly.phase === 'as-found'));

const sideResult = (draft: Mark | 'no-mark'): MarkResult['drive'] =>
  draft === 'no-mark' ? { none: 'no mark on this flank' } : draft;

/** The result a draft stands for, or what is still missing. */
export function readMark({ drive, coast, judgement, note }: MarkDraft): Result<MarkResult> {
  if (drive === undefined) return missing('drive', 'The drive flank is not drawn yet.');
  if (coast === undefined) return missing('coast', 'The coast flank is not drawn yet.');
  if (judgement === undefined) return missing('judgement', 'Say what the mark asks for.');
  const written = note.trim() === '' ? {} : { note: note.trim() };
  return ok({ kind: 'mark', drive: sideResult(drive), coast: sideResult(coast), judgement, ...written });
}

const missing = (field: string, sentence: string) =>
  fail({ kind: 'unanswered', field, sentence, remedy: 'Touch the flank where the middle of the mark lies.' });
