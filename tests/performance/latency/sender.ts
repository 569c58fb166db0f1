import { type ChildProcessByStdio, spawn } from 'node:child_process';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';
import { createInterface } from 'node:readline';

/** A simulated gauge in a process of its own that remembers when each line went out. */
export interface Sender {
  readonly link: string;
  /** Sends its lines; gives the wall clock in milliseconds at which the n-th, `0.00n mm`, was written. */
  run(): Promise<readonly number[]>;
  end(): void;
}

export async function startSender(rate: number, seconds: number): Promise<Sender> {
  const child: ChildProcessByStdio<Writable, Readable, null> = spawn(
    process.execPath,
    [join(import.meta.dirname, '..', 'gauge-to-be-read.ts'), String(rate), String(seconds)],
    { stdio: ['pipe', 'pipe', 'inherit'] },
  );
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const next = async (): Promise<string> => (await lines.next()).value ?? '';
  const link = await next();
  return {
    link,
    run: async () => {
      child.stdin.write('go\n');
      const written = await next();
      return JSON.parse(written.replace('written ', '')) as number[];
    },
    end: () => void child.stdin.write('end\n'),
  };
}
