import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BenchPage, openBenchPage, untilLive } from '../../support/benchPage.ts';
import { newSet, typedLimits } from '../../support/jobs/job.ts';
import { walkJob } from '../../support/jobs/walk.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

it('does a new set with two trials in 90 clicks and 150 keystrokes, with nothing left out', async () => {
  const walked = await walkJob(bench, { ...newSet, described: 'at the screens', limits: typedLimits });
  const { clicks, keys } = walked.strokes;
  console.log(`new set, two trials: ${clicks} clicks, ${keys} keystrokes`);
  console.log(walked.path.join('\n'));
  expect(walked.faults).toEqual([]);
});
