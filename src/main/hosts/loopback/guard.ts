import { createHash, timingSafeEqual } from 'node:crypto';

/** What a request says about itself, as far as admission needs it. */
interface Knock {
  readonly host: string | undefined;
  readonly origin: string | undefined;
  readonly protocols: readonly string[];
}

/** The WebSocket subprotocol that carries the token: headers of a WebSocket cannot be set by a page, its subprotocol can. */
export const protocolFor = (token: string): string => `axlewright.${token}`;

/**
 * Whether a request was addressed to us by our own name. A page elsewhere that points its own name at this
 * machine (DNS rebinding) is recognised by the Host header.
 */
export const isOwnHost = (host: string | undefined, port: number): boolean =>
  host === `127.0.0.1:${port}` || host === `localhost:${port}`;

/** Whether a WebSocket may be opened: own host, own origin, and the token of this run. */
export function mayEnter(knock: Knock, port: number, token: string): boolean {
  if (!isOwnHost(knock.host, port)) return false;
  if (knock.origin !== `http://127.0.0.1:${port}` && knock.origin !== `http://localhost:${port}`) return false;
  return knock.protocols.some((protocol) => same(protocol, protocolFor(token)));
}

/** Compares without telling by its duration how much was right. */
function same(a: string, b: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(a), digest(b));
}
