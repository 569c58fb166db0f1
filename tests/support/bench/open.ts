import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openBench } from '../../../src/main/bench/bench.ts';
import type { BenchOptions, Simulation } from '../../../src/main/bench/parts.ts';
import { systemClock } from '../../../src/main/clock.ts';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import type { Result } from '../../../src/shared/basics/result.ts';

export const newFolder = (): string => mkdtempSync(join(tmpdir(), 'axlewright-bench-'));

/** A real bench in a new folder: real database, real clock. */
export function benchInNewFolder(
  simulation?: Simulation,
  folder = newFolder(),
  ports?: BenchOptions['ports'],
): BenchService {
  const seams = { ...(simulation === undefined ? {} : { simulation }), ...(ports === undefined ? {} : { ports }) };
  return valueOf(openBench({ folder, clock: systemClock, version: 'test', ...seams }));
}

/** The value of a result that must be there; the problem's own words when it is not. */
export function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(`${result.problem.kind}: ${result.problem.sentence}`);
  return result.value;
}
