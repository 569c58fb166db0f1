import { useState } from 'react';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { How } from '../../../../shared/job/records/measurement.ts';
import { fail, ok, type Problem, type Result } from '../../../../shared/basics/result.ts';
import { emptyDraft, type Measure, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { useGauges } from '../../../stores/gauges.ts';
import { useSession } from '../../../stores/session.ts';

/** The tool a typed reading was read off, and the step of its scale. */
export interface ToolDraft {
  readonly tool: string;
  readonly resolution: QuantityDraft;
}

/** The tool used last for each kind of reading: the same micrometer measures every shim of the morning. */
const lastUsed = new Map<Measure, ToolDraft>();

export function useTool(measure: Measure): readonly [ToolDraft, (tool: ToolDraft) => void, readonly string[]] {
  const units = useSession((session) => session.units);
  const known = useGauges(({ gauges }) => gauges);
  const [draft, setDraft] = useState(
    () => lastUsed.get(measure) ?? { tool: '', resolution: emptyDraft(measure, units) },
  );
  const typed = (known ?? []).filter((gauge) => gauge.kind === 'typed');
  const change = (next: ToolDraft): void => {
    const filled = next.tool === draft.tool ? next : withKnownResolution(next, typed);
    lastUsed.set(measure, filled);
    setDraft(filled);
  };
  return [draft, change, typed.map((gauge) => gauge.label)];
}

/** A tool the shop has entered brings its resolution along. */
function withKnownResolution(draft: ToolDraft, typed: readonly Gauge[]): ToolDraft {
  const gauge = typed.find((one) => one.label === draft.tool);
  if (gauge === undefined) return draft;
  return { tool: draft.tool, resolution: { text: String(gauge.resolution.value), unit: gauge.resolution.unit } };
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

const noTool: Problem = {
  kind: 'no-tool',
  field: 'tool',
  sentence: 'Name the tool it was read off.',
  remedy: 'Type its name.',
};
