/** Those who listen to one end of a line. */
export interface Hearing {
  readonly on: (listener: (bytes: Uint8Array) => void) => () => void;
  readonly tell: (bytes: Uint8Array) => void;
}

export function hearing(): Hearing {
  const listeners = new Set<(bytes: Uint8Array) => void>();
  return {
    on(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    tell(bytes) {
      for (const listener of listeners) listener(bytes);
    },
  };
}
