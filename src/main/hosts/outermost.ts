/**
 * The outermost ring of a host: whatever nobody else has caught (a listener that throws, a promise that nobody waits for)
 * is given to `onDefect`, and the bench goes on. Gauges go on being journaled while a person saves a report; a bench that
 * ends in mid-measurement would lose more than any of these faults can.
 * @returns takes the ring off again.
 */
export function surviveDefects(onDefect: (where: string, error: unknown) => void): () => void {
  const thrown = (error: unknown): void => safely(onDefect, 'a listener', error);
  const rejected = (error: unknown): void => safely(onDefect, 'an errand', error);
  process.on('uncaughtException', thrown);
  process.on('unhandledRejection', rejected);
  return () => {
    process.off('uncaughtException', thrown);
    process.off('unhandledRejection', rejected);
  };
}

/** What is thrown while a defect is noted has nowhere left to go. */
function safely(onDefect: (where: string, error: unknown) => void, where: string, error: unknown): void {
  try {
    onDefect(where, error);
  } catch {
    process.stderr.write(`axlewright: a fault of the program at ${where} could not be noted.\n`);
  }
}
