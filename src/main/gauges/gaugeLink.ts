import type { GaugeState } from '../../shared/contract/gauges.ts';
import { askingOf, type Link } from '../../shared/gauges/link.ts';
import { bytesOf } from '../../shared/gauges/text.ts';
import type { GaugeLinkOptions } from './gaugeLinkOptions.ts';
import { gaugeEars } from './gaugeEars.ts';
import { gaugeStatus } from './gaugeStatus.ts';
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
  const { gauge, link, clock } = options;
  const ending = new AbortController();
  const status = gaugeStatus(gauge, clock, options.onState);
  const first = Promise.withResolvers<PortProblem | undefined>();
  const ears = gaugeEars(options, status);
  let hungUp = false;

  const lost = (why: PortProblem, wasLive: boolean): void => {
    if (wasLive) ears.deaf(ending.signal.aborted ? 'disconnected by hand' : why.sentence);
    if (ending.signal.aborted) status.become('unplugged-by-hand');
    else status.become('gone', why);
  };

  const notOpened = (why: PortProblem): void => {
    // A gauge that was here and is not there now is simply still gone.
    if (status.now() === 'gone' && (why.kind === 'port-missing' || why.kind === 'no-answer')) return;
    status.become('problem', why);
  };

  const stayUntilClosed = async (port: Port, closed: Promise<PortProblem>, live: () => void): Promise<PortProblem> => {
    const believed = setTimeout(live, hungUp ? stays_ms : 0);
    if (!hungUp) live();
    const asking = keepAsking(link, port);
    const endNow = (): void => void port.close();
    ending.signal.addEventListener('abort', endNow, { once: true });
    if (ending.signal.aborted) endNow();
    const why = await closed;
    clearTimeout(believed);
    ending.signal.removeEventListener('abort', endNow);
    clearInterval(asking);
    return why;
  };

  const connectOnce = async (): Promise<void> => {
    const closed = Promise.withResolvers<PortProblem>();
    let isOpen = false;
    let isLive = false;
    const live = (): void => {
      if (isOpen && !isLive) ears.live();
      isLive ||= isOpen;
    };
    ears.prick();
    const bytes = (some: Uint8Array): void => {
      live();
      ears.bytes(some);
    };
    const port = await options.open(link, { bytes, closed: closed.resolve });
    first.resolve(port.ok ? undefined : port.problem);
    if (!port.ok) return notOpened(port.problem);
    isOpen = true;
    const why = await stayUntilClosed(port.value, closed.promise, live);
    lost(why, isLive);
    hungUp = why.kind === 'hangs-up';
    return undefined;
  };

  const keepConnected = async (): Promise<void> => {
    while (!ending.signal.aborted) {
      await connectOnce();
      await pause(hungUp ? afterHangUp_ms : lookAgain_ms, ending.signal);
    }
  };

  const ended = keepConnected();
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
