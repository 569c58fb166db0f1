import { afterAll, beforeAll, expect, it } from 'vitest';
import { latest } from '../../../src/shared/job/records/build.ts';
import { valueOf } from '../../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../../support/benchPage.ts';
import { newSet, typedLimits } from '../../support/jobs/job.ts';
import { walkJob } from '../../support/jobs/walk.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
  await untilLive(bench.service, bench.gauges.indicator);
  // A shop has its tools; naming them is done once, and not once a job.
  for (const [label, value, unit] of [
    ['Micrometer', 0.01, 'mm'],
    ['Wrench', 1, 'N.m'],
  ] as const)
    valueOf(
      await bench.service.answers['gauges.save']({ gauge: { label, kind: 'typed', resolution: { value, unit } } }),
    );
});
afterAll(() => bench.close());

it('does a new set with two trials in 90 clicks, and 150 keystrokes besides those of its spec sheet', async () => {
  const walked = await walkJob(bench, { ...newSet, described: 'at the screens', limits: typedLimits });
  const { strokes, onLimits, build, path } = walked;
  console.log(
    `new set, two trials: ${strokes.clicks} clicks, ${strokes.keys} keystrokes; of these the spec sheet ${onLimits.clicks} and ${onLimits.keys}`,
  );
  console.log(path.join('\n'));
  // Nothing is left out: two trials with both marks, closed, certified as complete, no override.
  const trials = build.assemblies.filter(({ phase }) => phase === 'trial');
  expect(trials.map((trial) => latest(trial, 'mark')?.result)).toMatchObject([
    { judgement: 'change' },
    { judgement: 'accepted' },
  ]);
  expect(build.assemblies.flatMap(({ overrides }) => overrides)).toEqual([]);
  expect(build.specSheet?.limits).toHaveLength(typedLimits.limits.length);
  expect(build.certificates.at(-1)?.complete).toBe(true);
  expect(strokes.clicks).toBeLessThanOrEqual(90);
  expect(strokes.keys - onLimits.keys).toBeLessThanOrEqual(150);
  expect(walked.faults).toEqual([]);
});
