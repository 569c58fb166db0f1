import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { z } from 'zod';
import { type Met, metSchema } from './coverage.ts';
import type { Change, Prepared } from './draw.ts';

/** What became of a change: noticed by a test, by none that came by it, or no test of these came by it at all. */
export type Fate = 'noticed' | 'not noticed' | 'no test there';
export interface Tried {
  readonly change: Change;
  readonly fate: Fate;
}

/** A copy of the project in which changes lie asleep, and what each of its test files came by. */
interface Copy {
  readonly folder: string;
  readonly tests: readonly TestFile[];
}
interface TestFile {
  readonly path: string;
  readonly took_ms: number;
  readonly hits: Met['hits'];
}

/**
 * Tries changes one by one, each with those test files alone that come by its place, the quickest first.
 * @param tests test files to choose from, as paths from the root
 * @throws where a test fails without any change
 */
export function tried(
  root: string,
  files: readonly Prepared[],
  tests: readonly string[],
  tell: (one: Tried) => void,
): readonly Tried[] {
  const copy = copied(root, files, tests);
  return files.flatMap(({ changes }) =>
    changes.map((change) => {
      const one = { change, fate: fateOf(copy, change.id) };
      tell(one);
      return one;
    }),
  );
}

function copied(root: string, files: readonly Prepared[], tests: readonly string[]): Copy {
  const folder = join(root, 'out', 'mutation', 'work');
  rmSync(folder, { recursive: true, force: true });
  for (const part of ['src', 'hardware-sim', 'tests', 'package.json', 'electron.config.ts'])
    cpSync(join(root, part), join(folder, part), { recursive: true });
  for (const part of ['node_modules', 'docs', join('out', 'renderer')]) {
    if (!existsSync(join(root, part))) continue;
    mkdirSync(join(folder, part, '..'), { recursive: true });
    symlinkSync(join(root, part), join(folder, part));
  }
  writeFileSync(join(folder, 'vitest.config.ts'), config);
  for (const { path, text } of files) writeFileSync(join(folder, path), text);
  return { folder, tests: untouched(folder, tests) };
}

const config = `import { defineConfig } from 'vitest/config';
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    environment: 'node',
    setupFiles: ['tests/support/propertySeed.ts', 'tests/performance/mutation/watch.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: 1,
    fileParallelism: false,
  },
});
`;

const reportSchema = z.object({
  testResults: z.array(
    z.object({ name: z.string(), status: z.string(), startTime: z.number(), endTime: z.number(), message: z.string() }),
  ),
});

/** Runs every test once with all changes asleep. */
function untouched(folder: string, tests: readonly string[]): readonly TestFile[] {
  const coverage = join(folder, 'coverage');
  mkdirSync(coverage, { recursive: true });
  const report = join(folder, 'report.json');
  const { stdout, stderr } = vitest(folder, ['--reporter=json', `--outputFile=${report}`, ...tests], {
    MUTATION_COVERAGE: coverage,
  });
  if (!existsSync(report)) throw new Error(`no test ran:\n${stdout}\n${stderr}`);
  const { testResults } = reportSchema.parse(JSON.parse(readFileSync(report, 'utf8')));
  const failed = testResults.filter(({ status }) => status === 'failed').map(({ name }) => relative(folder, name));
  if (failed.length > 0) throw new Error(`fails without any change: ${failed.join(', ')}\n${stdout}\n${stderr}`);
  const took = new Map(testResults.map(({ name, startTime, endTime }) => [name, endTime - startTime]));
  return readdirSync(coverage).map((name) => {
    const { path, hits } = metSchema.parse(JSON.parse(readFileSync(join(coverage, name), 'utf8')));
    return { path: relative(folder, path), took_ms: took.get(path) ?? 0, hits };
  });
}

function fateOf({ folder, tests }: Copy, id: string): Fate {
  const near = tests.filter(({ hits }) => (hits[id] ?? 0) > 0).toSorted((a, b) => a.took_ms - b.took_ms);
  if (near.length === 0) return 'no test there';
  const most = Math.max(...near.map(({ hits }) => hits[id] ?? 0));
  const usual_ms = near.reduce((sum, { took_ms }) => sum + took_ms, 0);
  const { status } = vitest(folder, ['--bail=1', ...near.map(({ path }) => path)], {
    __STRYKER_ACTIVE_MUTANT__: id,
    MUTATION_HITS: String(100 * most + 100_000),
    // Ten times as long as without the change, and time to begin on a busy machine: what takes longer is endless.
    timeout: String(Math.round(10 * usual_ms + 120_000)),
  });
  return status === 0 ? 'not noticed' : 'noticed';
}

function vitest(folder: string, words: readonly string[], { timeout, ...env }: Readonly<Record<string, string>>) {
  return spawnSync(process.execPath, [join('node_modules', 'vitest', 'vitest.mjs'), 'run', ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...env },
    maxBuffer: 2 ** 28,
    killSignal: 'SIGKILL',
    ...(timeout === undefined ? {} : { timeout: Number(timeout) }),
  });
}
