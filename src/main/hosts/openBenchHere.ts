import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BenchService } from '../../shared/contract/contract.ts';
import type { Result } from '../../shared/result.ts';
import { openBench } from '../bench/bench.ts';
import { systemClock } from '../clock.ts';

export interface OpenHere {
  readonly folder: string;
  readonly simulate: boolean;
}

/** Opens the bench for a host: real clock, real folder, and the simulated gauges when they are asked for. */
export async function openBenchHere({ folder, simulate }: OpenHere): Promise<Result<BenchService>> {
  const simulation = simulate ? await (await import('./simulatedBench.ts')).openSimulation() : undefined;
  const bench = openBench({
    folder,
    clock: systemClock,
    version: ownVersion(),
    ...(simulation === undefined ? {} : { simulation }),
  });
  if (!bench.ok) await simulation?.close();
  return bench;
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
