// Loaded before the bench of a soak, and only there: says every ten seconds, on a line of its own to the soak, how much memory
// is still in use after everything that can be let go was let go. What the process holds of the system tells less: the
// engine keeps room it may need again (175 to 410 MB within a minute of hostile messages, of which 40 MB were in use).
import { writeSync } from 'node:fs';

/** The soak's end of it is open at this number. */
const toTheSoak = 3;

setInterval(() => {
  globalThis.gc?.();
  const { heapUsed, external } = process.memoryUsage();
  try {
    writeSync(toTheSoak, `${heapUsed + external}\n`);
  } catch {
    // The soak has gone; the bench is not to end for that.
  }
}, 10_000).unref();
