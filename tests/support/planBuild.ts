import type { BenchService } from '../../src/shared/contract/contract.ts';
import type { Deed } from '../../src/shared/job/records/notebook.ts';
import { checkIds } from '../../src/shared/job/records/checkIds.ts';
import { valueOf } from './bench/open.ts';
import { limitsSet, trial } from './records/scenario.ts';
import { backlashOf, lowAndToe, markAt, markOf, marks, packs, shimsOf, withMakeUp } from './records/trials.ts';

const by = 'R. Lindqvist';

/** A build whose first trial has its packs, its backlash and both marks, and whose mark asks for a change. */
export async function buildForPlan(
  service: BenchService,
  title = 'Rear axle 1207, new set',
): Promise<{ readonly build: string; readonly trial: string }> {
  const { id: build } = valueOf(await service.answers['builds.start']({ title, technician: by }));
  const write = async (deed: Deed): Promise<string> =>
    valueOf(await service.answers['builds.write']({ build, by, deed })).entries.at(-1)?.id ?? '';
  await write(withMakeUp({}));
  await write(limitsSet);
  const first = await write(trial);
  for (const check of checkIds.filter((id) => !['shims', 'backlash', 'mark'].includes(id))) {
    await write({ kind: 'overridden', assembly: first, check, reason: 'On the shop’s paper sheet' });
  }
  await write(shimsOf(first, packs(1.42, 3.1, 3.6)));
  await write(backlashOf(first, 0.2));
  await write(markOf(first, lowAndToe));
  return { build, trial: first };
}

/** Shims for pinion depth in the shop's drawer, three of each size (mm). */
export async function putInDrawer(service: BenchService, sizes_mm: readonly number[]): Promise<void> {
  const sizes = sizes_mm.map((value) => ({
    use: 'pinion-depth' as const,
    thickness: { value, unit: 'mm' },
    count: 3,
  }));
  valueOf(await service.answers['drawer.save']({ drawer: { sizes } }));
}

/** What the second trial showed: the backlash as expected, the drive mark right, the coast mark far too high. */
export async function writeTrialTwo(
  service: BenchService,
  build: string,
  trialTwo: string,
  backlash_mm: number,
): Promise<void> {
  const write = async (deed: Deed): Promise<void> =>
    void valueOf(await service.answers['builds.write']({ build, by, deed }));
  await write(backlashOf(trialTwo, backlash_mm));
  await write(markOf(trialTwo, marks(markAt(-0.06, 0.01), markAt(0, 0.45, { crown: 'hard' }))));
}
