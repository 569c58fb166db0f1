import { ok, type Result } from '../../../shared/basics/result.ts';
import { openBenchHere } from '../openBenchHere.ts';
import type { PageFiles } from '../policy.ts';
import { openLoopback } from './host.ts';

/** A simulated bench that is opened beside a real one when somebody asks to try it. */
interface Beside {
  /** Gives the link to it; the first time it is opened, and a failure is tried again. */
  readonly open: () => Promise<Result<string>>;
  readonly close: () => Promise<void>;
}

interface Opened {
  readonly link: string;
  readonly close: () => Promise<void>;
}

/** @param folder of the real bench: the simulated one keeps its own inside, as with `--simulate`. */
export function simulatedBeside(folder: string, files: PageFiles): Beside {
  let opening: Promise<Result<Opened>> | undefined;
  return {
    open: async () => {
      const opened = await (opening ??= openBeside(folder, files));
      if (opened.ok) return ok(opened.value.link);
      opening = undefined;
      return opened;
    },
    close: async () => {
      const opened = await opening;
      if (opened?.ok === true) await opened.value.close();
    },
  };
}

async function openBeside(folder: string, files: PageFiles): Promise<Result<Opened>> {
  const bench = await openBenchHere({ folder, simulate: true });
  if (!bench.ok) return bench;
  const host = await openLoopback({ service: bench.value, files });
  if (!host.ok) {
    await bench.value.close();
    return host;
  }
  const close = async (): Promise<void> => {
    await host.value.close();
    await bench.value.close();
  };
  return ok({ link: host.value.link, close });
}
