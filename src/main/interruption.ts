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
