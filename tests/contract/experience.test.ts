import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { type Reached, transports } from '../support/bench/carriers.ts';
import { benchInNewFolder, newFolder, valueOf } from '../support/bench/open.ts';
import { finishedBuilds } from '../support/finishedBuilds.ts';
import { buildForPlan } from '../support/planBuild.ts';

describe.each(Object.entries(transports))('earlier builds over %s', (_name, reach) => {
  let service: BenchService;
  let reached: Reached;
  beforeAll(async () => {
    service = benchInNewFolder(undefined, newFolder());
    reached = await reach(service);
  });
  afterAll(async () => {
    await reached.close();
    await service.close();
  });

  it('gives the finished builds that have something in common, and no other', async () => {
    const finished = await finishedBuilds(service, 2);
    await buildForPlan(service, 'Still on the bench');
    const { build } = await buildForPlan(service);
    const notebooks = valueOf(await reached.client.ask('experience.read', { build }));
    expect(new Set(notebooks.map(({ id }) => id))).toEqual(new Set(finished.map(({ build: id }) => id)));
  });

  it('knows none for a build that is not there', async () => {
    const answer = await reached.client.ask('experience.read', { build: 'nowhere' });
    expect(answer.ok ? '' : answer.problem.kind).toBe('no-build');
  });
});
