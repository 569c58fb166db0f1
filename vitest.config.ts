import { defineConfig } from 'vitest/config';

const project = (
  name: string,
  folders: readonly string[],
  options: { readonly timeout?: number; readonly alone?: boolean; readonly retry?: number } = {},
) => ({
  test: {
    name,
    include: folders.map((folder) => `tests/${folder}/**/*.test.ts`),
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
      project('browser', ['browser'], { timeout: 300_000, alone: true, retry: 1 }),
    ],
  },
});
