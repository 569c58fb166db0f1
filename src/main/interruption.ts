/** The person's wish to end a program that runs until it is ended. */
interface Interruption {
  readonly signal: AbortSignal;
  /** Settles when it comes. */
  readonly happened: Promise<void>;
  /** From here on the signals end the program at once again, as usual. */
  readonly forget: () => void;
}

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Listens for Ctrl+C, for the end of the session and for whoever stops this process. */
export function interruption(): Interruption {
  const ending = new AbortController();
  const happened = Promise.withResolvers<void>();
  const end = (): void => {
    ending.abort();
    happened.resolve();
  };
  for (const signal of signals) process.on(signal, end);
  return {
    signal: ending.signal,
    happened: happened.promise,
    forget: () => {
      for (const signal of signals) process.off(signal, end);
    },
  };
}

/**
 * From here on a signal ends the program between two steps of its work and not within one. A file is written whole in one
 * step, so that Ctrl+C leaves it whole or not at all, with nothing beside it.
 */
export function endBetweenSteps(): void {
  for (const signal of signals) if (!process.listeners(signal).includes(endNow)) process.once(signal, endNow);
}

const endNow = (signal: NodeJS.Signals): void => void process.kill(process.pid, signal);
