import type { Carrier } from '../../shared/contract/client.ts';
import { presence } from './presence.ts';

/** Waits between attempts to reach the bench again, in milliseconds; the last one repeats. */
const waits_ms = [100, 250, 500, 1000, 2000] as const;
const longestWait_ms = 2000;

/**
 * Carries messages over the WebSocket of the loopback host and reaches for it again whenever it is lost. The
 * token travels as a subprotocol, because a page can set no header of a WebSocket, and stays out of every URL.
 */
export function socketCarrier(url: string, token: string): Carrier {
  const line = presence();
  let socket: WebSocket | undefined;
  let attempts = 0;
  let closed = false;
  let retry: ReturnType<typeof setTimeout> | undefined;
  let onText: (text: string) => void = () => undefined;

  function open(): void {
    socket = new WebSocket(url, [`axlewright.${token}`]);
    socket.addEventListener('open', () => {
      attempts = 0;
      line.set(true);
    });
    socket.addEventListener('message', ({ data }) => {
      if (typeof data === 'string') onText(data);
    });
    socket.addEventListener('close', lost);
  }

  function lost(): void {
    line.set(false);
    if (closed) return;
    retry = setTimeout(open, waits_ms[attempts] ?? longestWait_ms);
    attempts += 1;
  }

  open();
  return {
    send: (text) => socket?.send(text),
    onText: (listener) => {
      onText = listener;
    },
    onPresence: (listener) => line.on(listener),
    close: () => {
      closed = true;
      clearTimeout(retry);
      socket?.close();
    },
  };
}
