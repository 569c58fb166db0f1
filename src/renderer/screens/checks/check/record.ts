import { holdRun } from '../../../live/run.ts';
import { recordMeasurement } from '../../../stores/notebook.ts';
import type { CheckProps } from './checkProps.ts';

/** Hands the stretch to the bench, which works the figures out again from its journal and writes them down. */
export async function record({ assembly, check }: CheckProps): Promise<void> {
  const taken = holdRun();
  if (taken !== undefined) await recordMeasurement({ assembly: assembly.id, check: check.id, ...taken });
}
