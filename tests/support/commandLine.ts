import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join, resolve } from 'node:path';
import { onTestFinished } from 'vitest';
import { runCommandLine } from '../../src/main/cli/run.ts';
import { verbsFor } from '../../src/main/cli/verbs.ts';

const root = resolve(import.meta.dirname, '..', '..');

/** What came of one command line. */
export interface Ran {
  readonly code: number | null;
  /** Each line of standard output, parsed: anything there that is no JSON fails the test. */
  readonly answers: readonly unknown[];
  readonly said: string;
}

/** In this process, through the same function that the program calls. */
export async function inProcess(...words: readonly string[]): Promise<Ran> {
  const answers: unknown[] = [];
  const said: string[] = [];
  const code = await runCommandLine(await verbsFor(words[0]), [...words, '--json'], {
    answer: (value) => answers.push(JSON.parse(JSON.stringify(value))),
    say: (sentence) => said.push(sentence),
  });
  return { code, answers, said: said.join('\n') };
}

export interface Running {
  readonly child: ChildProcessWithoutNullStreams;
  /** The answers so far. */
  readonly answers: () => readonly unknown[];
  readonly said: () => string;
  /** Waits for so many answers. */
  readonly answered: (count: number) => Promise<readonly unknown[]>;
  readonly ended: Promise<Ran>;
}

/** As a program of its own, as a shell starts it. Ended when the test is, if it has not ended before. */
export function start(words: readonly string[], input = ''): Running {
  const child = spawn(process.execPath, [join('src', 'main', 'cli', 'axlewright.ts'), ...words, '--json'], {
    cwd: root,
  });
  child.stdin.end(input);
  let written = '';
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => (written += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (said += text));
  const answers = (): readonly unknown[] =>
    written
      .slice(0, written.lastIndexOf('\n') + 1)
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => JSON.parse(line) as unknown);
  const ended = once(child, 'close').then(([code]) => {
    if (!written.endsWith('\n') && written !== '') throw new Error(`half a line on standard output: ${written}`);
    return { code: code as number | null, answers: answers(), said };
  });
  onTestFinished(async () => {
    child.kill('SIGINT');
    await ended;
  });
  const answered = async (count: number): Promise<readonly unknown[]> => {
    while (written.split('\n').length <= count && child.exitCode === null && child.signalCode === null)
      await Promise.race([once(child.stdout, 'data'), once(child, 'close')]);
    if (answers().length < count) throw new Error(`ended after ${answers().length} answers: ${said}`);
    return answers();
  };
  return { child, answers, said: () => said, answered, ended };
}

/** Starts it and waits until it ends by itself. */
export const asProgram = async (words: readonly string[], input = ''): Promise<Ran> => start(words, input).ended;
