// Runs before each test file while the code is changed on purpose: notes which changes the file comes by, or wakes one.
import { writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { afterAll, expect } from 'vitest';
import { coverageOf } from './coverage.ts';

const { MUTATION_COVERAGE: folder, MUTATION_HITS: most } = process.env;
const state = coverageOf(globalThis);
// A change may make a loop endless; after so many passes it is stopped by an error.
if (most !== undefined) Object.assign(state, { hitCount: 0, hitLimit: Number(most) });

afterAll(() => {
  if (folder === undefined) return;
  const path = expect.getState().testPath ?? '';
  const met = { path, hits: state.mutantCoverage?.static ?? {} };
  writeFileSync(
    `${folder}/${basename(path)}.${Buffer.from(path).toString('hex').slice(-80)}.json`,
    JSON.stringify(met),
  );
});
