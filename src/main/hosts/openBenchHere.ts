import { join } from 'node:path';
import type { BenchService } from '../../shared/contract/contract.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Keychain } from '../archive/keychain.ts';
import { openBench } from '../bench/bench.ts';
import { systemClock } from '../clock.ts';
import { installation } from './installation.ts';
import { plugInSimulated } from './simulatedGaugeRecords.ts';

interface OpenHere {
  readonly folder: string;
  readonly simulate: boolean;
  /** How the screens end the bench, on hosts where nothing else does. */
  readonly onEnd?: () => void;
  /** The system's keychain, where the host can ask it. */
  readonly keychain?: Keychain;
  /** Opens a simulated bench beside it; absent where the host cannot, or where it is one. */
  readonly simulateBeside?: () => Promise<Result<string>>;
}

/** The folder the records lie in: those of the simulated gauges have one of their own. */
export const recordsIn = ({ folder, simulate }: OpenHere): string => (simulate ? join(folder, 'simulated') : folder);

/**
 * Opens the bench for a host: real clock and real folder. With the simulated gauges it keeps a folder of its own
 * inside, so that what was measured on a simulated axle never stands among real builds.
 */
export async function openBenchHere(here: OpenHere): Promise<Result<BenchService>> {
  const { simulate, onEnd, keychain, simulateBeside } = here;
  const folder = recordsIn(here);
  const options = {
    clock: systemClock,
    version: installation.version,
    installed: installation.root,
    folder,
    ...(onEnd === undefined ? {} : { onEnd }),
    ...(keychain === undefined ? {} : { keychain }),
  };
  if (!simulate) return openBench({ ...options, ...(simulateBeside === undefined ? {} : { simulateBeside }) });
  const { openSimulation } = await import('./simulatedBench.ts');
  const simulation = await openSimulation();
  const bench = openBench({ ...options, simulation });
  if (!bench.ok) {
    await simulation.close();
    return bench;
  }
  const plugged = await plugInSimulated(bench.value, simulation);
  return plugged.ok ? bench : plugged;
}
