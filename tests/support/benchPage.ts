import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import type { DemoAxle } from '../../hardware-sim/axle/demo.ts';
import type { Gauge } from '../../src/shared/job/records/gauge.ts';
import type { BenchOptions } from '../../src/main/bench/parts.ts';
import { type LoopbackHost, openLoopback } from '../../src/main/hosts/loopback/host.ts';
import { listPageFiles } from '../../src/main/hosts/pageFiles.ts';
import { openSimulation } from '../../src/main/hosts/simulatedBench.ts';
import { type PluggedIn, plugInSimulated } from '../../src/main/hosts/simulatedGaugeRecords.ts';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import type { Deed, Entry } from '../../src/shared/job/records/notebook.ts';
import { benchInNewFolder, newFolder, valueOf } from './bench/open.ts';
import { launchBrowser, type Look, openPage } from './browser.ts';
import { Nm, roundAxle, roundLimits } from './roundAxle.ts';

const builtScreens = join(import.meta.dirname, '..', '..', 'out', 'renderer');

/** A real bench on the simulated axle, served to a real browser. */
export interface BenchPage {
  readonly service: BenchService;
  readonly gauges: PluggedIn;
  readonly browser: Browser;
  readonly host: LoopbackHost;
  /** Where its records lie. */
  readonly folder: string;
  /** A page on the bench; a page that complains ends the test that looks at `faults`. */
  open(look?: Look): Promise<{ readonly page: Page; readonly faults: string[] }>;
  close(): Promise<void>;
}

/**
 * @param hand `hurried` for tests that wait for a measurement.
 * @param ports a list of ports in place of this computer's.
 * @param folder records that are there already.
 * @param axle another one on the stand than the demo's.
 */
export async function openBenchPage(
  hand: 'hurried' | 'person' = 'hurried',
  ports?: BenchOptions['ports'],
  folder = newFolder(),
  axle?: DemoAxle,
): Promise<BenchPage> {
  const simulation = await openSimulation(hand, axle);
  const service = benchInNewFolder(simulation, folder, ports);
  const gauges = valueOf(await plugInSimulated(service, simulation));
  const page = await openBarePage(service);
  return {
    ...page,
    service,
    gauges,
    folder,
    close: async () => {
      await page.close();
      await service.close();
    },
  };
}

/** A browser on any bench, as it is. */
export type BarePage = Pick<BenchPage, 'browser' | 'host' | 'open' | 'close'>;

/** A real bench served to a real browser, with whatever gauges it has: none of its own. Closing leaves the bench open. */
export async function openBarePage(service: BenchService): Promise<BarePage> {
  const host = valueOf(await openLoopback({ service, files: valueOf(listPageFiles(builtScreens)) }));
  const browser = await launchBrowser();
  return {
    browser,
    host,
    open: (look) => openPage(browser, host.link, look),
    close: async () => {
      await browser.close();
      await host.close();
    },
  };
}

const by = 'R. Lindqvist';
/** A build on the stand in its first trial, written straight into the bench: its id, and that of the trial. */
export async function buildInTrial(
  service: BenchService,
  title = 'Rear axle 1207, 4.10 to 1, owner reports a whine under drive at 80 km/h',
): Promise<{ readonly build: string; readonly trial: string }> {
  const { id: build } = valueOf(await service.answers['builds.start']({ title, technician: by }));
  const write = async (deed: Deed): Promise<Entry | undefined> =>
    valueOf(await service.answers['builds.write']({ build, by, deed })).entries.at(-1);
  await write(roundAxle);
  await write(roundLimits);
  await write({ kind: 'noted', topic: 'complaint', text: 'Whine under drive at 80 km/h, gone on coast.' });
  const trial = await write({
    kind: 'assembled',
    assembly: { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false },
  });
  if (trial === undefined) throw new Error('the trial was not written');
  const typed = { kind: 'typed', tool: 'Torque wrench', resolution: Nm(1) } as const;
  await write({
    kind: 'measured',
    assembly: trial.id,
    check: 'cap-torque',
    how: typed,
    result: { kind: 'quantity', value: Nm(78) },
  });
  await write({ kind: 'overridden', assembly: trial.id, check: 'shims', reason: 'Measured on the old sheet' });
  return { build, trial: trial.id };
}

/** Waits until a gauge is live on the bench. */
export async function untilLive(service: BenchService, gauge: Gauge['id']): Promise<void> {
  for (let tries = 0; tries < 100; tries += 1) {
    const states = valueOf(await service.answers['gauges.states']({}));
    if (states.some((state) => state.gauge === gauge && state.state === 'live')) return;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error('the gauge never became live');
}
