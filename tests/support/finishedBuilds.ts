import type { BenchService } from '../../src/shared/contract/contract.ts';
import type { Deed } from '../../src/shared/job/records/notebook.ts';
import { valueOf } from './bench/open.ts';
import { buildForPlan } from './planBuild.ts';
import { trial } from './records/scenario.ts';
import { backlashOf, markOf, packs, right, shimsOf } from './records/trials.ts';

const by = 'R. Lindqvist';

/** Builds that came right at their second trial and have their certificate, as incomplete as it may be. */
export async function finishedBuilds(service: BenchService, count: number) {
  const built: { readonly build: string; readonly second: string }[] = [];
  for (let n = 1; n <= count; n += 1) built.push(await finishedBuild(service, `Rear axle ${1180 + n}, new set`));
  return built;
}

async function finishedBuild(service: BenchService, title: string) {
  const { build } = await buildForPlan(service, title);
  const write = async (deed: Deed): Promise<string> =>
    valueOf(await service.answers['builds.write']({ build, by, deed })).entries.at(-1)?.id ?? '';
  const second = await write(trial);
  await write(shimsOf(second, packs(1.27, 3.15, 3.55)));
  await write(backlashOf(second, 0.2));
  await write(markOf(second, { ...right, judgement: 'accepted' }));
  valueOf(await service.answers['certificate.issue']({ build, by, page: 'a4', units: 'metric' }));
  return { build, second };
}
