import type { GaugeState } from '../../shared/contract/gauges.ts';
import { askingOf, type Link } from '../../shared/gauges/link.ts';
import { bytesOf } from '../../shared/gauges/text.ts';
import type { GaugeLinkOptions } from './gaugeLinkOptions.ts';
import { type GaugeEars, gaugeEars } from './gaugeEars.ts';
import { type GaugeStatus, gaugeStatus } from './gaugeStatus.ts';
import type { Port, PortProblem } from './links/port.ts';

/** A lost gauge is looked for this often: live again well within a second of being plugged in. */
const lookAgain_ms = 250;

/** A server that has just hung up is tried less often, and believed only when it stays that long or says something. */
const afterHangUp_ms = 700;
const stays_ms = 250;

/** One gauge, kept connected until `end`. */
export interface GaugeLink {
  /** What came of the first attempt to open the link: undefined when it is open. */
  readonly firstAttempt: Promise<PortProblem | undefined>;
  readonly state: () => GaugeState;
  /** To be called about ten times a second: notices that a gauge has fallen silent. */
  readonly check: () => void;
  readonly end: () => Promise<void>;
}

/** Opens the link, reads lines from it, opens it again whenever it is lost. */
export function gaugeLink(options: GaugeLinkOptions): GaugeLink {
  const { gauge, clock } = options;
  const ending = new AbortController();
  const status = gaugeStatus(gauge, clock, options.onState);
  const first = Promise.withResolvers<PortProblem | undefined>();
  const ears = gaugeEars(options, status);
  const ended = keepConnected({ options, ears, status, ending: ending.signal, opened: first.resolve });
  return {
    firstAttempt: first.promise,
    state: status.report,
    check: ears.check,
    end: async () => {
      ending.abort();
      await ended;
    },
  };
}

/** What one attempt after the other is made with. */
interface Connecting {
  readonly options: GaugeLinkOptions;
  readonly ears: GaugeEars;
  readonly status: GaugeStatus;
  readonly ending: AbortSignal;
  /** Told what came of an attempt to open the port. */
  readonly opened: (problem: PortProblem | undefined) => void;
}

/** One attempt after the other until the end; a server that hung up is tried less often. */
async function keepConnected(connecting: Connecting): Promise<void> {
  let hungUp = false;
  while (!connecting.ending.aborted) {
    hungUp = await connectOnce(connecting, hungUp);
    await pause(hungUp ? afterHangUp_ms : lookAgain_ms, connecting.ending);
  }
}

/** Opens the port and stays until it closes. @returns whether the other end hung up */
async function connectOnce(connecting: Connecting, hungUp: boolean): Promise<boolean> {
  const { options, ears, opened } = connecting;
  const closed = Promise.withResolvers<PortProblem>();
  let isOpen = false;
  let isLive = false;
  const live = (): void => {
    if (isOpen && !isLive) ears.live();
    isLive ||= isOpen;
  };
  ears.opening();
  const bytes = (some: Uint8Array): void => {
    live();
    ears.bytes(some);
  };
  const port = await options.open(options.link, { bytes, closed: closed.resolve });
  opened(port.ok ? undefined : port.problem);
  if (!port.ok) {
    notOpened(connecting, port.problem);
    return hungUp;
  }
  isOpen = true;
  const why = await stayUntilClosed(connecting, port.value, { closed: closed.promise, live, hungUp });
  lost(connecting, why, isLive);
  return why.kind === 'hangs-up';
}

function lost({ ears, status, ending }: Connecting, why: PortProblem, wasLive: boolean): void {
  if (wasLive) ears.lost(ending.aborted ? 'disconnected by hand' : why.sentence);
  if (ending.aborted) status.become('unplugged-by-hand');
  else status.become('gone', why);
}

function notOpened({ status }: Connecting, why: PortProblem): void {
  // A gauge that was here and is not there now is simply still gone.
  if (status.now() === 'gone' && (why.kind === 'port-missing' || why.kind === 'no-answer')) return;
  status.become('problem', why);
}

interface Stay {
  readonly closed: Promise<PortProblem>;
  readonly live: () => void;
  /** The server hung up last time: it is believed only when it stays, or says something. */
  readonly hungUp: boolean;
}

async function stayUntilClosed(
  { options, ending }: Connecting,
  port: Port,
  { closed, live, hungUp }: Stay,
): Promise<PortProblem> {
  const believed = setTimeout(live, hungUp ? stays_ms : 0);
  if (!hungUp) live();
  const asking = keepAsking(options.link, port);
  const endNow = (): void => void port.close();
  ending.addEventListener('abort', endNow, { once: true });
  if (ending.aborted) endNow();
  const why = await closed;
  clearTimeout(believed);
  ending.removeEventListener('abort', endNow);
  clearInterval(asking);
  return why;
}

function keepAsking(link: Link, port: Port): NodeJS.Timeout | undefined {
  const { ask, every_ms = 200 } = askingOf(link);
  if (ask === undefined) return undefined;
  const question = bytesOf(ask);
  port.write(question);
  return setInterval(() => port.write(question), every_ms);
}

const pause = (wait_ms: number, signal: AbortSignal): Promise<void> =>
  new Promise((resolve) => {
    if (signal.aborted) return resolve();
    const timer = setTimeout(done, wait_ms);
    signal.addEventListener('abort', done, { once: true });
    function done(): void {
      clearTimeout(timer);
      signal.removeEventListener('abort', done);
      resolve();
    }
  });
