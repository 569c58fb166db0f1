import type { How } from '../../../../shared/job/records/measurement.ts';
import type { Measure } from '../../../parts/quantity.ts';
import { saveTool, useGauges } from '../../../stores/gauges.ts';
import { changeSession, useSession } from '../../../stores/session.ts';
import { byTool, toolsFor } from './tool.ts';

/**
 * Enters a tool that was named for the first time into the shop's list, so that nobody names it twice, and remembers it for
 * the next reading of this kind. A reading is not held up by a list that could not be written: it keeps what was typed.
 */
export async function withToolEntered(how: How, measure: Measure): Promise<How> {
  if (how.kind !== 'typed') return how;
  const there = toolsFor(useGauges.getState().gauges, measure);
  const known = there.find(({ id, label }) => (how.gauge === undefined ? label === how.tool : id === how.gauge.id));
  const tool = known ?? (await saveTool(how.tool, how.resolution));
  if (tool === undefined) return how;
  changeSession({ tools: { ...useSession.getState().tools, [measure]: tool.id } });
  return byTool(tool);
}
