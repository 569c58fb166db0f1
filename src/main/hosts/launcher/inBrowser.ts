import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { interruption } from '../../interruption.ts';
import { installation } from '../installation.ts';
import { simulatedBeside } from '../loopback/beside.ts';
import { type LoopbackHost, openLoopback } from '../loopback/host.ts';
import { openBenchHere, recordsIn } from '../openBenchHere.ts';
import { surviveDefects } from '../outermost.ts';
import { listPageFiles } from '../pageFiles.ts';
import { showInBrowser } from './browser.ts';
import { addressIn, layDoorway, layRefusal } from './doorway.ts';
import { benchThatOpens, runningBench } from './handOver.ts';
import { awaitLeaving } from './leaving.ts';

export interface BrowserDesk {
  /** Where the records live. */
  readonly folder: string;
  readonly simulate: boolean;
  /** Started from a menu: no terminal shows what is said, and nobody ends it there. */
  readonly alone: boolean;
  /** Of the loopback host; 0 takes a free one. */
  readonly port: number;
  readonly say: (sentence: string) => void;
  /** Told the link under which a browser on this machine finds the bench. */
  readonly onLink: (link: string) => void;
}

/** How long after its last page a bench that stands alone ends. */
const endsAfter_ms = 5 * 60 * 1000;

/** Serves the bench to a browser until it is ended; hands over to the one that runs already, if one does. */
export async function openInBrowser(desk: BrowserDesk): Promise<Result<void>> {
  const records = recordsIn(desk);
  const running = await runningBench(records);
  if (running !== undefined) return handOver(desk, records, running);
  const opened = await serve(desk, records);
  if (opened.ok) return opened;
  // Two starts at once: the other one has the records, and its link is on its way.
  const other = opened.problem.kind === 'database-in-use' ? await benchThatOpens(records) : undefined;
  if (other !== undefined) return handOver(desk, records, other);
  if (desk.alone) tellRefusal(opened.problem);
  return opened;
}

function handOver({ say, onLink, alone }: BrowserDesk, records: string, link: string): Result<void> {
  onLink(link);
  say('the bench is running already; this shows it.');
  showInBrowser(addressIn(records), alone);
  return ok(undefined);
}

function tellRefusal(problem: Problem): void {
  const page = layRefusal(tmpdir(), problem);
  if (page !== undefined) showInBrowser(page.address, false);
}

async function serve(desk: BrowserDesk, records: string): Promise<Result<void>> {
  const files = listPageFiles(join(installation.root, 'out', 'renderer'));
  if (!files.ok) return files;
  const asked = Promise.withResolvers<void>();
  const beside = desk.simulate ? undefined : simulatedBeside(desk.folder, files.value);
  const bench = await openBenchHere({
    ...desk,
    onEnd: asked.resolve,
    ...(beside === undefined ? {} : { simulateBeside: beside.open }),
  });
  if (!bench.ok) return bench;
  const forget = surviveDefects(bench.value.defect);
  const leaving = desk.alone ? awaitLeaving(endsAfter_ms) : undefined;
  const host = await openLoopback({
    service: bench.value,
    files: files.value,
    port: desk.port,
    ...(leaving === undefined ? {} : { onPages: leaving.pages }),
  });
  if (host.ok)
    await untilEnded(desk, records, host.value, [asked.promise, ...(leaving === undefined ? [] : [leaving.left])]);
  leaving?.stop();
  await beside?.close();
  const written = await bench.value.close();
  forget();
  return host.ok ? written : host;
}

/** From the link to the wish to end, whoever has it: the terminal, the screens, or nobody being there any more. */
async function untilEnded(
  desk: BrowserDesk,
  records: string,
  host: LoopbackHost,
  ends: readonly Promise<void>[],
): Promise<void> {
  const interrupted = interruption();
  const doorway = layDoorway(records, host.link);
  desk.onLink(host.link);
  desk.say('open this link in a browser on this machine; Ctrl+C ends the bench.');
  if (doorway !== undefined) showInBrowser(doorway.address, desk.alone);
  await Promise.race([interrupted.happened, ...ends]);
  doorway?.remove();
  await host.close();
  interrupted.forget();
}
