import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

/** What became of one change made on purpose. */
export interface Mutant {
  readonly path: string;
  readonly line: number;
  readonly became: string;
  readonly replacement: string;
}

const reportSchema = z.object({
  files: z.record(
    z.string(),
    z.object({
      mutants: z.array(
        z.object({
          status: z.string(),
          replacement: z.string().optional(),
          location: z.object({ start: z.object({ line: z.number() }) }),
        }),
      ),
    }),
  ),
});

/**
 * Changes the named lines one by one and runs the tests on each change.
 * @param mutate files, or lines of files as `path:from-to`
 * @throws where the tester itself fails; its own words are then in `out/mutation/log.txt`
 */
export function mutants(root: string, mutate: readonly string[], tests: readonly string[]): readonly Mutant[] {
  const folder = join(root, 'out', 'mutation');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(root, 'out', 'mutation', 'vitest.config.ts'), vitestConfig(tests));
  writeFileSync(join(folder, 'stryker.json'), JSON.stringify(settings(mutate)));
  const cli = join(root, 'node_modules', '@stryker-mutator', 'core', 'bin', 'stryker.js');
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [cli, 'run', join('out', 'mutation', 'stryker.json')],
    {
      cwd: root,
      encoding: 'utf8',
      maxBuffer: 2 ** 28,
    },
  );
  writeFileSync(join(folder, 'log.txt'), `${stdout}\n${stderr}`);
  if (status !== 0) throw new Error(`the mutation tester ended with ${status}; its words are in out/mutation/log.txt`);
  const { files } = reportSchema.parse(JSON.parse(readFileSync(join(folder, 'report.json'), 'utf8')));
  return Object.entries(files).flatMap(([path, file]) =>
    file.mutants.map(({ status: became, replacement = '', location }) => ({
      path,
      line: location.start.line,
      became,
      replacement,
    })),
  );
}

/** Every change is tried in a run of its own, told to it by an environment variable: slower, and never a change untried. */
const settings = (mutate: readonly string[]) => ({
  testRunner: 'command',
  commandRunner: {
    command: `${process.execPath} ${join('node_modules', 'vitest', 'vitest.mjs')} run --bail 1 --config out/mutation/vitest.config.ts`,
  },
  // The tester reads the settings of an older compiler's kind; named so that it finds none.
  tsconfigFile: 'none.json',
  mutate,
  mutator: { excludedMutations: ['StringLiteral', 'ObjectLiteral', 'ArrayDeclaration', 'Regex'] },
  coverageAnalysis: 'off',
  concurrency: 1,
  ignorePatterns: ['out/*', '!out/mutation', '!out/renderer', 'docs'],
  timeoutMS: 60_000,
  reporters: ['json'],
  jsonReporter: { fileName: 'out/mutation/report.json' },
  tempDirName: 'out/mutation/work',
});

const vitestConfig = (tests: readonly string[]): string => `import { defineConfig } from 'vitest/config';
export default defineConfig({
  test: {
    include: ${JSON.stringify(tests)},
    environment: 'node',
    setupFiles: ['tests/support/propertySeed.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
`;
