import { defineConfig } from 'vitest/config';

interface ProjectOptions {
  readonly timeout?: number;
  /** One file at a time. */
  readonly alone?: boolean;
  readonly retry?: number;
  /** Folders in its own that are another project's. */
  readonly without?: readonly string[];
}

const project = (name: string, folders: readonly string[], options: ProjectOptions = {}) => ({
  test: {
    name,
    include: folders.map((folder) => `tests/${folder}/**/*.test.ts`),
    exclude: (options.without ?? []).map((folder) => `tests/${folder}/**`),
    environment: 'node' as const,
    setupFiles: ['tests/support/propertySeed.ts'],
    // A net for what hangs, not a figure: a slow machine must not fail a test.
    testTimeout: options.timeout ?? 60_000,
    hookTimeout: options.timeout ?? 60_000,
    // Serial ports, browsers and disks are shared things: one file at a time keeps their tests truthful.
    fileParallelism: options.alone !== true,
    retry: options.retry ?? 0,
    // Tests that say they may go on beside one another: as many as the smallest machine has processors.
    maxConcurrency: 2,
  },
});

export default defineConfig({
  test: {
    projects: [
      project('unit', ['unit', 'published']),
      project('contract', ['contract'], { timeout: 60_000, alone: true }),
      project('integration', ['integration'], { timeout: 180_000, alone: true }),
      // The simulated hand works in real time: where the machine stalls for a second it is late, and a person would rock
      // once more. So does the test, once; the report says that it did.
      project('browser', ['browser'], { timeout: 300_000, alone: true, retry: 1, without: ['browser/jobs'] }),
      // Whole jobs, each on a bench of its own: they mostly wait for the simulated hand, so two files go on beside one another.
      project('jobs', ['browser/jobs'], { timeout: 300_000, retry: 1 }),
    ],
  },
});
