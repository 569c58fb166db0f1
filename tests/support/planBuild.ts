import type { BenchService } from '../../src/shared/contract/contract.ts';
import type { Deed } from '../../src/shared/records/notebook.ts';
import { checkIds } from '../../src/shared/setup/checkIds.ts';
import { valueOf } from './bench/open.ts';
import { limitsSet, trial } from './records/scenario.ts';
import { backlashOf, lowAndToe, markOf, packs, shimsOf, withMakeUp } from './records/trials.ts';

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
