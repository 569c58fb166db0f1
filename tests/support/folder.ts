import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { onTestFinished } from 'vitest';

/** A folder of its own for one test, gone when the test is done. */
export function temporaryFolder(): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'axlewright-test-'));
  onTestFinished(() => fs.rmSync(folder, { recursive: true, force: true }));
  return folder;
}
