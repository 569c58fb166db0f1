import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BenchService, News } from '../../src/shared/contract/contract.ts';
import { type Reached, transports } from '../support/bench/carriers.ts';
import { benchInNewFolder, newFolder, valueOf } from '../support/bench/open.ts';

describe.each(Object.entries(transports))('settings over %s', (_name, reach) => {
  const folder = newFolder();
  let service: BenchService;
  let reached: Reached;
  beforeAll(async () => {
    service = benchInNewFolder(undefined, folder);
    reached = await reach(service);
  });
  afterAll(async () => {
    await reached.close();
    await service.close();
  });

  it('gives those that were changed, tells everyone, and has them after a restart', async () => {
    expect(valueOf(await reached.client.ask('settings.read', {}))).toEqual({});
    const heard: News<'settings-changed'>[] = [];
    reached.client.hear('settings-changed', (news) => heard.push(news));
    const change = { pedalKey: 'F9', technicians: ['Technician A', 'Technician B'], tools: { length: 'micrometer' } };
    expect(valueOf(await reached.client.ask('settings.change', { change }))).toEqual(change);
    valueOf(await reached.client.ask('settings.change', { change: { units: 'inch' } }));
    await expect.poll(() => heard).toEqual([change, { units: 'inch' }]);

    await reached.close();
    await service.close();
    service = benchInNewFolder(undefined, folder);
    reached = await reach(service);
    expect(valueOf(await reached.client.ask('settings.read', {}))).toEqual({ ...change, units: 'inch' });
  });

  it('refuses what no setting can be, by its name, and changes nothing of the rest', async () => {
    const wrong = { sound: false, units: 'cubits' } as never;
    expect(await reached.client.ask('settings.change', { change: wrong })).toMatchObject({
      ok: false,
      problem: { kind: 'refused', field: expect.stringContaining('units') },
    });
    const read = valueOf(await reached.client.ask('settings.read', {}));
    expect(read).not.toHaveProperty('sound');
    expect(read.units).toBe('inch');
  });
});
