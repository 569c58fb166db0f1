import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { until } from '../../support/gaugesForTest.ts';

const machine = join(resolve(import.meta.dirname, '..', '..', '..'), 'src/main/hosts/launcher/machine.mjs');

/** Work that goes on until it is ended, and says which process it is. */
const work = `process.stdout.write(process.pid + ' '); setInterval(() => {}, 1000)`;
const launch = `import(${JSON.stringify(machine)}).then(async ({ runUntilEnded }) =>
  process.exit(await runUntilEnded(process.execPath, ['-e', ${JSON.stringify(work)}], process.env)))`;

const lives = (pid: number): boolean => {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
};

// npm puts a shell between itself and the launcher, as here. Windows ends whole trees of processes and has no such shell.
describe.skipIf(process.platform === 'win32')('work that goes on until it is ended', () => {
  it.each([
    ['the shell before it is stopped, which tells nobody', 'SIGTERM', 'sh'],
    ['the shell before it is killed', 'SIGKILL', 'sh'],
    ['it is stopped itself', 'SIGTERM', 'launcher'],
  ] as const)('ends when %s', async (_name, signal, which) => {
    const asked =
      which === 'sh'
        ? spawn('sh', ['-c', `"$0" -e "$1"; true`, process.execPath, launch])
        : spawn(process.execPath, ['-e', launch]);
    const [said] = (await once(asked.stdout, 'data')) as [Buffer];
    const pid = Number(said.toString());
    expect(lives(pid)).toBe(true);
    asked.kill(signal);
    await until(() => !lives(pid));
    expect(lives(pid)).toBe(false);
  });
});
