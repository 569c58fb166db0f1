// Runs the test suite and closes with one plain line, "N passed, N failed", as the very last thing printed.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { run } from './machine.mjs';

/**
 * @param {string} root
 * @param {string} node
 * @param {NodeJS.ProcessEnv} env
 * @param {readonly string[]} args further words for vitest, e.g. a file name
 */
export function runTests(root, node, env, args) {
  const report = join(root, 'out', 'test', 'results.json');
  mkdirSync(join(root, 'out', 'test'), { recursive: true });
  rmSync(report, { force: true });
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const status = run(
    node,
    [vitest, 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`, ...args],
    env,
  );
  const { passed, failed, skipped } = countOf(report);
  process.stdout.write(`${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`);
  // No test at all is a failure: a suite that ran nothing has shown nothing.
  return status !== 0 || failed > 0 || passed === 0 ? 1 : 0;
}

/** How the run went, out of its report; no report is a failure. @param {string} report */
export function countOf(report) {
  try {
    const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults } = JSON.parse(
      readFileSync(report, 'utf8'),
    );
    // A file that cannot even be loaded counts as one failure of its own.
    const broken = testResults.filter(
      (/** @type {any} */ file) => file.status === 'failed' && file.assertionResults.length === 0,
    ).length;
    return { passed: numPassedTests, failed: numFailedTests + broken, skipped: numPendingTests + numTodoTests };
  } catch {
    return { passed: 0, failed: 1, skipped: 0 };
  }
}
