import { it } from 'vitest';
import { type Build, latest } from '../../../src/shared/job/records/build.ts';
import type { CheckId } from '../../../src/shared/job/records/checkIds.ts';
import type { MeasuredResult } from '../../../src/shared/job/records/measurement.ts';
import { openBenchPage, untilLive } from '../../support/benchPage.ts';
import { type Job, newSet, otherJobs, right } from '../../support/jobs/job.ts';
import type { Manner } from '../../support/jobs/person.ts';
import { walkJob, type Walked } from '../../support/jobs/walk.ts';

/**
 * Whole jobs on axles of other make-ups, each by what the green button asks, to its certificate. A walk mostly waits for
 * the simulated hand, which takes a person's time; so each has a bench of its own and some go on beside one another.
 */
async function walked(job: Job, manner: Manner = 'mouse'): Promise<Walked> {
  const bench = await openBenchPage();
  try {
    await untilLive(bench.service, bench.gauges.indicator);
    return await walkJob(bench, job, manner);
  } finally {
    await bench.close();
  }
}

const resultOf = (build: Build, phase: string, check: CheckId): MeasuredResult | undefined => {
  const assembly = build.assemblies.findLast((one) => one.phase === phase);
  return assembly === undefined ? undefined : latest(assembly, check)?.result;
};

it.concurrent('does a used set, whose mark as found is the target and whose case stays shut', async ({ expect }) => {
  const { build, faults, path } = await walked(otherJobs.usedSet);
  expect(resultOf(build, 'as-found', 'mark')).toMatchObject({ kind: 'mark', judgement: 'recorded' });
  expect(path.join()).not.toContain('flange-runout');
  expect(build.certificates.at(-1)?.complete).toBe(true);
  expect(faults).toEqual([]);
});

it.concurrent('does a removable carrier: adjusters counted as found and in the preload, locks, spacer at full torque', async ({
  expect,
}) => {
  const { build, faults } = await walked(otherJobs.carrier);
  expect(resultOf(build, 'stripping', 'adjusters-marked')).toMatchObject({ kind: 'notches' });
  expect(resultOf(build, 'final', 'case-preload')).toMatchObject({ kind: 'notches', each_mm: 0.075 });
  expect(resultOf(build, 'final', 'adjuster-locks')).toMatchObject({ yes: true });
  expect(resultOf(build, 'final', 'pinion-nut-torque')).toMatchObject({ kind: 'quantity' });
  expect(faults).toEqual([]);
});

it.concurrent('does a caged pinion in inches, keeps what was typed in inches, and tries on its final bearings', async ({
  expect,
}) => {
  const { build, faults } = await walked({ ...otherJobs.inch, makeUp: otherJobs.cage.makeUp });
  expect(build.assemblies.find(({ phase }) => phase === 'trial')?.bearings).toBe('new');
  expect(resultOf(build, 'trial', 'pinion-nut-torque')).toMatchObject({ kind: 'quantity' });
  const shims = resultOf(build, 'final', 'shims');
  expect(shims?.kind === 'shims' && new Set(shims.packs.map(({ pack }) => pack.unit))).toEqual(new Set(['[in_i]']));
  expect(resultOf(build, 'trial', 'cap-torque')).toMatchObject({ value: { unit: '[lbf_av].[ft_i]' } });
  expect(build.certificates.at(-1)?.complete).toBe(true);
  expect(faults).toEqual([]);
});

it.concurrent('does a front axle of standard cut and a limited slip with shaft clips, with the keyboard alone', async ({
  expect,
}) => {
  const job = { ...otherJobs.limitedSlip, makeUp: { ...otherJobs.limitedSlip.makeUp, driveFlank: 'concave' } } as const;
  const { build, strokes, faults } = await walked(job, 'keys');
  expect(strokes.clicks).toBe(0);
  expect(build.makeUp?.driveFlank).toBe('concave');
  expect(resultOf(build, 'final', 'differential-works')).toMatchObject({ yes: true });
  expect(resultOf(build, 'final', 'pins-and-clips')).toMatchObject({ yes: true });
  expect(build.certificates).toHaveLength(1);
  expect(faults).toEqual([]);
});

it.concurrent('does a job with the pedal alone, but for the numbers that somebody has to write', async ({ expect }) => {
  // A crush sleeve asks how far the nut was turned; with a spacer the pedal gets through.
  const spacer = { ...newSet.makeUp, pinionPreload: 'solid-spacer' } as const;
  const job = { ...newSet, title: 'WO 32', makeUp: spacer, marks: [right] } as const;
  const { build, strokes, helped, faults } = await walked(job, 'pedal');
  expect(strokes.clicks).toBe(0);
  expect(helped.toSorted()).toEqual(
    [
      'bolts-locked',
      'cap-torque',
      'case-preload',
      'mark',
      'oil',
      'pinion-nut-torque',
      'ring-bolt-torque',
      'set-numbers',
      'shims',
    ].toSorted(),
  );
  expect(build.certificates).toHaveLength(1);
  expect(faults).toEqual([]);
});
