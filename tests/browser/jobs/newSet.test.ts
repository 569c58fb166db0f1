import { afterAll, beforeAll, expect, it } from 'vitest';
import { latest } from '../../../src/shared/job/records/build.ts';
import { valueOf } from '../../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../../support/benchPage.ts';
import { enterLimits } from '../../support/jobs/beginning.ts';
import { newSet, typedLimits } from '../../support/jobs/job.ts';
import { personAt } from '../../support/jobs/person.ts';
import { walkJob } from '../../support/jobs/walk.ts';
import { theBuild } from '../../support/theBuild.ts';
import { show } from '../everyScreen.ts';

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

/** What typing the sheet costs, once for all axles like it: it is in the library from then on. */
async function typeTheSheet() {
  const { answers } = bench.service;
  const { id } = valueOf(await answers['builds.start']({ title: 'WO 11', technician: 'A' }));
  const described = { kind: 'described', makeUp: newSet.makeUp } as const;
  valueOf(await answers['builds.write']({ build: id, by: 'A', deed: described }));
  const { page, faults } = await bench.open();
  await show(page, { at: 'limits', build: id });
  const person = personAt(page, 'mouse');
  await enterLimits(person, { ...newSet, limits: typedLimits });
  await page.locator('.button--next', { hasText: 'Open as found' }).waitFor();
  await page.context().close();
  return { strokes: person.strokes, sheet: (await theBuild(bench.service, id)).specSheet, faults };
}

it('does a new set with two trials in 90 clicks and 150 keystrokes, with the sheet that was typed for the axle before', async () => {
  const typed = await typeTheSheet();
  expect(typed.faults).toEqual([]);
  expect(typed.sheet?.limits).toHaveLength(typedLimits.limits.length);
  const name = typed.sheet?.name ?? '';
  const job = { ...newSet, described: 'at the screens', limits: { ...typedLimits, name }, sheetKnown: true } as const;
  const { strokes, onLimits, build, path, faults } = await walkJob(bench, job);
  console.log(
    `new set, two trials, sheet from the library: ${strokes.clicks} clicks, ${strokes.keys} keystrokes; with the sheet typed: ${strokes.clicks - onLimits.clicks + typed.strokes.clicks} and ${strokes.keys - onLimits.keys + typed.strokes.keys}`,
  );
  console.log(path.join('\n'));
  // Nothing is left out: two trials with both marks, closed, certified as complete, no override.
  const trials = build.assemblies.filter(({ phase }) => phase === 'trial');
  expect(trials.map((trial) => latest(trial, 'mark')?.result)).toMatchObject([
    { judgement: 'change' },
    { judgement: 'accepted' },
  ]);
  expect(build.assemblies.flatMap(({ overrides }) => overrides)).toEqual([]);
  expect(build.specSheet).toEqual(typed.sheet);
  expect(build.certificates.at(-1)?.complete).toBe(true);
  expect(strokes.clicks).toBeLessThanOrEqual(90);
  expect(strokes.keys).toBeLessThanOrEqual(150);
  expect(faults).toEqual([]);
});
