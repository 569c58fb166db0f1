import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BenchService } from '../../shared/contract/contract.ts';
import type { Result } from '../../shared/basics/result.ts';
import { openBench } from '../bench/bench.ts';
import { systemClock } from '../clock.ts';
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
  const options = { clock: systemClock, version: ownVersion() };
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

/** Out of the package file, which lies four folders up from the sources and two from the built programs. */
function ownVersion(): string {
  for (const up of ['../../..', '../..']) {
    try {
      const { name, version } = JSON.parse(readFileSync(join(import.meta.dirname, up, 'package.json'), 'utf8')) as {
        name?: string;
        version?: string;
      };
      if (name === 'axlewright' && version !== undefined) return version;
    } catch {
      // Not here: look in the other place.
    }
  }
  return 'unknown';
}
