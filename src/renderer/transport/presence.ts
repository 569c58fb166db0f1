/** Whether messages can pass, told to everyone who asks; a listener hears the present state at once. */
export interface Presence {
  set(present: boolean): void;
  on(listener: (present: boolean) => void): () => void;
}

export function presence(): Presence {
  const listeners = new Set<(present: boolean) => void>();
  let now = false;
  return {
    set(present) {
      if (present === now) return;
      now = present;
      for (const listener of listeners) listener(present);
    },
    on(listener) {
      listeners.add(listener);
      listener(now);
      return () => void listeners.delete(listener);
    },
  };
}
