import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { type Reached, transports } from '../support/bench/carriers.ts';
import { benchInNewFolder, newFolder, valueOf } from '../support/bench/open.ts';
import { finishedBuilds } from '../support/finishedBuilds.ts';
import { buildForPlan } from '../support/planBuild.ts';

describe.each(Object.entries(transports))('earlier builds over %s', (_name, reach) => {
  let service: BenchService;
  let reached: Reached;
  let build: string;
  let finished: readonly string[];
  // Builds get their certificates here, and a certificate takes its time on a busy machine.
  beforeAll(async () => {
    service = benchInNewFolder(undefined, newFolder());
    reached = await reach(service);
    finished = (await finishedBuilds(service, 1)).map((one) => one.build);
    await buildForPlan(service, 'Still on the bench');
    ({ build } = await buildForPlan(service));
  }, 240_000);
  afterAll(async () => {
    await reached.close();
    await service.close();
  });

  it('gives the finished builds that have something in common, and no other', async () => {
    const notebooks = valueOf(await reached.client.ask('experience.read', { build }));
    expect(notebooks.map(({ id }) => id)).toEqual(finished);
  });

  it('knows none for a build that is not there', async () => {
    const answer = await reached.client.ask('experience.read', { build: 'nowhere' });
    expect(answer.ok ? '' : answer.problem.kind).toBe('no-build');
  });
});
