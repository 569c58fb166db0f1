import { listeners } from '../../shared/basics/listeners.ts';

/** Whether messages can pass, told to everyone who asks; a listener hears the present state at once. */
interface Presence {
  set(present: boolean): void;
  on(listener: (present: boolean) => void): () => void;
}

export function presence(): Presence {
  const all = listeners<[present: boolean]>();
  let now = false;
  return {
    set(present) {
      if (present === now) return;
      now = present;
      all.tell(present);
    },
    on(listener) {
      const stop = all.on(listener);
      listener(now);
      return stop;
    },
  };
}
