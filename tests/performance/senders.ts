import { type ChildProcessByStdio, spawn } from 'node:child_process';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import type { Readable, Writable } from 'node:stream';

/** Simulated gauges in a process of their own that remembers when each line went out. */
export interface Senders {
  /** One for each gauge. */
  readonly links: readonly string[];
  /** Sends all lines; gives, for each gauge, the wall clock in milliseconds at which its n-th, `0.00n mm`, was written. */
  run(): Promise<readonly (readonly number[])[]>;
  end(): void;
}

export async function startSenders(rates: readonly number[], seconds: number): Promise<Senders> {
  const child: ChildProcessByStdio<Writable, Readable, null> = spawn(
    process.execPath,
    [join(import.meta.dirname, 'gaugesToBeRead.ts'), rates.join(','), String(seconds)],
    { stdio: ['pipe', 'pipe', 'inherit'] },
  );
  const said = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const next = async (): Promise<unknown> => JSON.parse((await said.next()).value ?? 'null');
  const links = (await next()) as string[];
  return {
    links,
    run: async () => {
      child.stdin.write('go\n');
      return (await next()) as number[][];
    },
    end: () => void child.stdin.write('end\n'),
  };
}
