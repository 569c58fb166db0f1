import { createClient } from '../../shared/contract/client.ts';
import type { BenchClient } from '../../shared/contract/contract.ts';
import type { Problem } from '../../shared/basics/result.ts';
import { bridgeCarrier, type PreloadBridge } from './bridge.ts';
import { socketCarrier } from './socket.ts';

declare global {
  interface Window {
    readonly axlewright?: PreloadBridge;
  }
}

/** Reaches the bench by whatever this page was given: Electron's bridge, else the loopback host that served it. */
export function connect(page: Window, onMisshapen: (problem: Problem) => void): BenchClient {
  const options = { onMisshapen };
  if (page.axlewright !== undefined) return createClient(bridgeCarrier(page.axlewright), options);
  return createClient(socketCarrier(`ws://${page.location.host}/bench`, takeToken(page)), options);
}

const tokenKey = 'bench-token';

/**
 * The token stands in the fragment of the link that opened the page. It is taken out of the address bar, where
 * it could be read over a shoulder or land in a bookmark, and kept for a reload of this one tab.
 */
function takeToken(page: Window): string {
  const given = new URLSearchParams(page.location.hash.slice(1)).get('token');
  if (given === null) return page.sessionStorage.getItem(tokenKey) ?? '';
  page.sessionStorage.setItem(tokenKey, given);
  page.history.replaceState(page.history.state, '', page.location.pathname);
  return given;
}
