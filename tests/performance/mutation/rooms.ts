import type { SourceFile } from '../house/sources.ts';

interface MutatedRoom {
  readonly code: readonly string[];
  /** Where the tests stand that are to notice; of these, those are run that reach the changed files. */
  readonly tests: readonly string[];
}

/** Rooms whose tests must notice a changed sign, bound or condition. */
export const mutatedRooms: Readonly<Record<string, MutatedRoom>> = {
  measuring: {
    code: ['src/shared/measuring/'],
    tests: ['tests/unit/shared/measuring/', 'tests/unit/shared/job/captures/', 'tests/published/metrology/'],
  },
  checks: {
    code: ['src/shared/job/checks/', 'src/shared/job/captures/'],
    tests: ['tests/unit/shared/job/', 'tests/unit/shared/presentation/'],
  },
  plan: {
    code: ['src/shared/axle/plan/'],
    tests: ['tests/unit/shared/axle/plan/', 'tests/unit/shared/job/planning/', 'tests/published/plan/'],
  },
  gauges: { code: ['src/shared/gauges/'], tests: ['tests/unit/shared/gauges/', 'tests/published/gauges/'] },
  certificate: {
    code: ['src/shared/presentation/certificate/'],
    tests: ['tests/unit/shared/presentation/', 'tests/unit/main/certificate/', 'tests/published/certificate/'],
  },
  journal: {
    code: ['src/main/journal/', 'src/main/store/'],
    tests: ['tests/integration/journal/', 'tests/integration/store/', 'tests/unit/main/'],
  },
  bench: {
    code: ['src/main/bench/'],
    tests: ['tests/contract/', 'tests/integration/job/', 'tests/integration/store/', 'tests/unit/main/bench/'],
  },
  paper: {
    code: ['src/main/certificate/'],
    tests: ['tests/unit/main/certificate/', 'tests/published/certificate/', 'tests/integration/store/'],
  },
};

export const codeOf = (room: string, path: string): boolean =>
  mutatedRooms[room]?.code.some((folder) => path.startsWith(folder)) ?? false;

/** Which tests see a change in any of these files: those that import them, directly or through others. */
export function testsFor(code: readonly SourceFile[], paths: readonly string[], folders: readonly string[]) {
  const importers = new Map<string, string[]>();
  for (const { path, imports } of code)
    for (const { from } of imports) importers.set(from, [...(importers.get(from) ?? []), path]);
  const seen = new Set(paths);
  const queue = [...paths];
  for (const path of queue) {
    for (const importer of importers.get(path) ?? []) {
      if (seen.has(importer)) continue;
      seen.add(importer);
      queue.push(importer);
    }
  }
  return [...seen].filter((path) => path.endsWith('.test.ts') && folders.some((folder) => path.startsWith(folder)));
}
