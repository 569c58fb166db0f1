import type { Carrier } from '../../shared/contract/client.ts';
import { presence } from './presence.ts';

/** What Electron's preload puts on the page: a line for texts, and the wish that the screen stays on. */
export interface PreloadBridge {
  send(text: string): void;
  onText(listener: (text: string) => void): void;
  onPresence(listener: (present: boolean) => void): void;
  /** Keeps the screen on. */
  keepAwake(on: boolean): void;
}

/** Carries messages through Electron's preload. The line lasts as long as the window, so there is nothing to close. */
export function bridgeCarrier(bridge: PreloadBridge): Carrier {
  const line = presence();
  bridge.onPresence((present) => line.set(present));
  return {
    send: (text) => bridge.send(text),
    onText: (listener) => bridge.onText(listener),
    onPresence: (listener) => line.on(listener),
    close: () => undefined,
  };
}
