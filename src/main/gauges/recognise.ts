import type { Port } from '../../shared/contract/gauges.ts';
import { parseLink } from '../../shared/gauges/link.ts';
import { type UsbIdentity, whereIs } from '../../shared/gauges/usbIdentity.ts';
import { fail } from '../../shared/basics/result.ts';
import type { OpenPort, PortProblem } from './links/port.ts';

interface Recognising {
  readonly own: UsbIdentity;
  /** Adapters of the shop's other gauges, plugged in or not. */
  readonly others: () => readonly UsbIdentity[];
  readonly ports: () => Promise<readonly Port[]>;
  /** A person has just said that it is at the link's own port: true for the first opening. */
  readonly said: boolean;
  /** Told when it was found at another port than its link says. */
  readonly onMoved: (path: string) => void;
}

/** Opens a gauge at whatever port its adapter now has, and nothing else in its place. */
export function openRecognised(open: OpenPort, { own, others, ports, said, onMoved }: Recognising): OpenPort {
  let isSaid = said;
  return async (link, listener) => {
    const isOnPort = link.kind === 'serial' || link.kind === 'modbus';
    if (!isOnPort || isSaid) {
      const opened = await open(link, listener);
      // What was said holds for this plugging in; once the cable was out, it may be another gauge that comes back.
      if (opened.ok) isSaid = false;
      return opened;
    }
    const there = whereIs(own, (await ports()).map(pathAndUsb), others());
    if (there.is === 'absent') return fail(notThere);
    if (there.is === 'unclear') return fail(whichPort(there.paths));
    const opened = await open({ ...link, path: there.path }, listener);
    if (opened.ok && there.path !== link.path) onMoved(there.path);
    return opened;
  };
}

/** Asks at most so often: each look at the ports may be a program run. */
export function askedSeldom<T>(ask: () => Promise<T>, every_ms: number): () => Promise<T> {
  let asked_ms = -Infinity;
  let answer: Promise<T> | undefined;
  return () => {
    if (answer === undefined || performance.now() - asked_ms > every_ms) {
      asked_ms = performance.now();
      answer = ask();
    }
    return answer;
  };
}

export function pathAndUsb({ link, usb }: Port): { readonly path: string; readonly usb?: UsbIdentity | undefined } {
  const parsed = parseLink(link);
  const path = parsed.ok && 'path' in parsed.value ? parsed.value.path : link;
  return { path, usb };
}

const notThere: PortProblem = {
  kind: 'port-missing',
  sentence: 'Its adapter is at no port.',
  remedy: 'Plug the gauge in; the bench finds it at whatever port. With another adapter, choose its port anew.',
};

const whichPort = (paths: readonly string[]): PortProblem => ({
  kind: 'which-port',
  sentence:
    paths.length === 1
      ? `At ${paths[0] ?? ''} hangs this gauge or another with the same adapter.`
      : `This gauge may be at ${paths.join(' or ')}: the adapters cannot be told apart.`,
  remedy: 'Say on the page of the gauge at which port it is.',
});
