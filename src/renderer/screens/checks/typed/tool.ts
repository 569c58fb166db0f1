import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { How } from '../../../../shared/job/records/measurement.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { fail, ok, type Problem, type Result } from '../../../../shared/basics/result.ts';
import type { FieldErrors } from '../../../parts/draft.ts';
import { draftOf, emptyDraft, type Measure, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';

/** The tool a typed reading was read off, and the step of its scale. */
export interface ToolDraft {
  readonly tool: string;
  readonly resolution: QuantityDraft;
}

export type ToolErrors = FieldErrors<'tool' | 'resolution'>;

/** The tool used last for each kind of reading: the same micrometer measures every shim of the morning. */
const lastUsed = new Map<Measure, ToolDraft>();

/** The tool to begin with: the one used last for this kind of reading. */
export const usualTool = (measure: Measure, units: UnitSystem): ToolDraft =>
  lastUsed.get(measure) ?? { tool: '', resolution: emptyDraft(measure, units) };

export const rememberTool = (measure: Measure, tool: ToolDraft): void => void lastUsed.set(measure, tool);

/** A draft with another tool; one that the shop has entered brings its resolution along. */
export function withTool(draft: ToolDraft, tool: string, entered: readonly Gauge[]): ToolDraft {
  const gauge = entered.find((one) => one.label === tool);
  return { tool, resolution: gauge === undefined ? draft.resolution : draftOf(gauge.resolution) };
}

/** How a typed reading was taken, or which part of that is missing. */
export function readTool(draft: ToolDraft, measure: Measure): Result<How> {
  if (draft.tool.trim() === '') return fail(noTool);
  const resolution = readDraft(draft.resolution, measure, 'resolution');
  if (!resolution.ok) return resolution;
  if (!(resolution.value.value > 0))
    return fail({ ...noTool, field: 'resolution', sentence: 'A resolution above zero.' });
  return ok({ kind: 'typed', tool: draft.tool.trim(), resolution: resolution.value });
}

/** What is wrong with the tool, at the field it is about. */
export const toolErrors = (how: Result<How>): ToolErrors =>
  how.ok ? {} : { [how.problem.field === 'tool' ? 'tool' : 'resolution']: how.problem.sentence };

const noTool: Problem = {
  kind: 'no-tool',
  field: 'tool',
  sentence: 'Name the tool it was read off.',
  remedy: 'Type its name.',
};
