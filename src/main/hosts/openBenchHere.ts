import { join } from 'node:path';
import type { BenchService } from '../../shared/contract/contract.ts';
import type { Result } from '../../shared/basics/result.ts';
import { openBench } from '../bench/bench.ts';
import { systemClock } from '../clock.ts';
import { installation } from './installation.ts';
import { plugInSimulated } from './simulatedGaugeRecords.ts';

interface OpenHere {
  readonly folder: string;
  readonly simulate: boolean;
}

/**
 * Opens the bench for a host: real clock and real folder. With the simulated gauges it keeps a folder of its own
 * inside, so that what was measured on a simulated axle never stands among real builds.
 */
export async function openBenchHere({ folder, simulate }: OpenHere): Promise<Result<BenchService>> {
  const options = { clock: systemClock, version: installation.version };
  if (!simulate) return openBench({ ...options, folder });
  const { openSimulation } = await import('./simulatedBench.ts');
  const simulation = await openSimulation();
  const bench = openBench({ ...options, folder: join(folder, 'simulated'), simulation });
  if (!bench.ok) {
    await simulation.close();
    return bench;
  }
  const plugged = await plugInSimulated(bench.value, simulation);
  return plugged.ok ? bench : plugged;
}
