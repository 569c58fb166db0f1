import { afterAll, beforeAll, expect, it } from 'vitest';
import { demoAxle } from '../../../hardware-sim/axle/demo.ts';
import { scenarioSeed } from '../../../src/main/hosts/simulatedBench.ts';
import { latest } from '../../../src/shared/job/records/build.ts';
import { valueOf } from '../../support/bench/open.ts';
import { type BenchPage, openBenchPage, untilLive } from '../../support/benchPage.ts';
import { walkAsNewcomer } from '../../support/jobs/newcomer.ts';
import { theBuild } from '../../support/theBuild.ts';

let bench: BenchPage;
beforeAll(async () => {
  // Depth right and backlash out, which is brought in before any paint; the demo's own start is off in both, and takes two more
  // trials and a minute.
  const axle = demoAxle(scenarioSeed);
  const shims = { head_mm: 1.5, ringSide_mm: 6.1, otherSide_mm: 5.9 };
  const near = { ...axle, firstTrial: { ...axle.firstTrial, shims } };
  bench = await openBenchPage('hurried', undefined, undefined, near);
  await untilLive(bench.service, bench.gauges.indicator);
});
afterAll(() => bench.close());

it('leads somebody who has never seen it from the empty simulated bench to the certificate, by what it says alone', async () => {
  const { page, faults } = await bench.open();
  const begun = Date.now();
  const built = async () => {
    const [first] = valueOf(await bench.service.answers['builds.list']({}));
    return first === undefined ? undefined : theBuild(bench.service, first.id);
  };
  const path = await walkAsNewcomer(page, async () => ((await built())?.certificates.length ?? 0) > 0);
  console.log(`a newcomer’s walk: ${path.length} presses in ${Math.round((Date.now() - begun) / 1000)} s`);
  console.log(path.map(({ screen, said, button }) => `${screen} | ${said} | ${button}`).join('\n'));
  const build = await built();
  // Nothing was skipped: the mark was read in each trial that was painted, the last was accepted, and nothing was let through.
  expect(build?.certificates.at(-1)?.complete).toBe(true);
  expect(build?.assemblies.flatMap(({ overrides }) => overrides)).toEqual([]);
  const final = build?.assemblies.find(({ phase }) => phase === 'final');
  expect(final === undefined ? undefined : latest(final, 'mark')?.result).toMatchObject({ judgement: 'accepted' });
  expect(path.filter(({ button }) => button.startsWith('Move the ring gear'))).toHaveLength(1);
  const painted = build?.assemblies.filter((one) => latest(one, 'mark') !== undefined).map(({ phase }) => phase);
  expect(painted).toEqual(['trial', 'final']);
  expect(path.filter(({ button }) => button === 'Simulated hand').length).toBeGreaterThan(20);
  expect(faults).toEqual([]);
});
