import { holdRun, type Run } from '../../live/run.ts';
import { recordMeasurement } from '../../stores/notebook.ts';
import type { CheckProps } from './CheckScreen.tsx';

/** Hands the stretch to the bench, which works the figures out again from its journal and writes them down. */
export async function record({ assembly, check }: CheckProps, { stretch, settings }: Run): Promise<void> {
  holdRun();
  if (stretch !== undefined) await recordMeasurement({ assembly: assembly.id, check: check.id, stretch, settings });
}
