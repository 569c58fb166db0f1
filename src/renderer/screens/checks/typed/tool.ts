import { type Gauge, gaugeSeenOf } from '../../../../shared/job/records/gauge.ts';
import type { How } from '../../../../shared/job/records/measurement.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { unitNamed } from '../../../../shared/basics/units.ts';
import { fail, ok, type Problem, type Result } from '../../../../shared/basics/result.ts';
import type { FieldErrors } from '../../../parts/draft.ts';
import { dimensionOf, emptyDraft, type Measure, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { useGauges } from '../../../stores/gauges.ts';
import { useSession } from '../../../stores/session.ts';

/** The tool a typed reading was read off: one of the shop's, or one that is being named with the step of its scale. */
export interface ToolDraft {
  readonly gauge: Gauge | undefined;
  readonly tool: string;
  readonly resolution: QuantityDraft;
}

/** How a number was taken that was read off a tool. */
type HowTyped = Extract<How, { kind: 'typed' }>;

export type ToolErrors = FieldErrors<'tool' | 'resolution'>;

type Known = Pick<Gauge, 'kind' | 'resolution'>;

/** Whether a tool reads what is asked: a length off a micrometer, a torque off a wrench. */
const reads = ({ kind, resolution }: Known, measure: Measure): boolean =>
  kind === 'typed' && unitNamed(resolution.unit)?.dimension === dimensionOf(measure);

/** The shop's tools for this kind of reading, in the order in which they were entered. */
export const toolsFor = <Tool extends Known>(gauges: readonly Tool[] | undefined, measure: Measure): readonly Tool[] =>
  gauges?.filter((gauge) => reads(gauge, measure)) ?? [];

/** A tool that is still to be named. */
export const newTool = (measure: Measure, units: UnitSystem): ToolDraft => ({
  gauge: undefined,
  tool: '',
  resolution: emptyDraft(measure, units),
});

/** One of the shop's tools: its name and its scale are entered already. */
export const toolOf = (gauge: Gauge, measure: Measure, units: UnitSystem): ToolDraft => ({
  ...newTool(measure, units),
  gauge,
});

/** The tool to begin with: the one used last for this kind of reading, or the only one there is. */
export function usualTool(measure: Measure, units: UnitSystem): ToolDraft {
  const tools = toolsFor(useGauges.getState().gauges, measure);
  const gauge = usualOf(tools, useSession.getState().tools, measure);
  return gauge === undefined ? newTool(measure, units) : toolOf(gauge, measure, units);
}

/**
 * The one used last for this kind of reading; else the only one there is, unless it serves for another kind: the micrometer of
 * the shims is not what a backlash was read off.
 */
export function usualOf<Tool extends { readonly id: string }>(
  tools: readonly Tool[],
  used: Readonly<Partial<Record<Measure, string>>>,
  measure: Measure,
): Tool | undefined {
  const last = tools.find(({ id }) => id === used[measure]);
  const [only] = tools.length === 1 ? tools : [];
  return last ?? (only !== undefined && Object.values(used).includes(only.id) ? undefined : only);
}

/** How a typed reading was taken, or which part of that is missing. */
export function readTool(draft: ToolDraft, measure: Measure): Result<HowTyped> {
  if (draft.gauge !== undefined) return ok(byTool(draft.gauge));
  if (draft.tool.trim() === '') return fail(noTool);
  const resolution = readDraft(draft.resolution, measure, 'resolution');
  if (!resolution.ok) return resolution;
  const doubt = doubtOf(insideOf(resolution.value), measure);
  if (doubt !== undefined) return fail({ ...noTool, field: 'resolution', sentence: doubt });
  return ok({ kind: 'typed', tool: draft.tool.trim(), resolution: resolution.value });
}

/** A reading off one of the shop's tools, with its record as it is today. */
export const byTool = (gauge: Gauge): HowTyped => ({
  kind: 'typed',
  tool: gauge.label,
  resolution: gauge.resolution,
  gauge: gaugeSeenOf(gauge),
});

/** Step of the scale a number was read off, in mm or N·m; what was seen has none. */
export const stepOf = (how: How): number => (how.kind === 'typed' ? insideOf(how.resolution) : 0);

/** Finest and coarsest step of a hand tool's scale (own choice): beyond them the unit was mistaken. In mm, N·m, N. */
const steps: Readonly<Record<Measure, readonly [number, number]>> = {
  length: [0.0001, 1],
  dial: [0.0001, 0.2],
  torque: [0.001, 5],
  fastener: [0.01, 50],
  force: [0.01, 50],
};

function doubtOf(step: number, measure: Measure): string | undefined {
  if (!(step > 0)) return 'A resolution above zero.';
  const [finest, coarsest] = steps[measure];
  if (step < finest) return 'No hand tool reads so finely. Look at the unit beside it.';
  return step > coarsest ? 'No tool for this reads so coarsely. Look at the unit beside it.' : undefined;
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
