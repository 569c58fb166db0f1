import { afterEach, describe, expect, it } from 'vitest';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';

const by = 'A. Tester';
const gauge = { label: 'Indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } } as const;

describe('the records of a data folder', () => {
  const open: BenchService[] = [];
  const bench = (folder: string): BenchService => {
    const service = benchInNewFolder(undefined, folder);
    open.push(service);
    return service;
  };
  const shut = async (): Promise<void> => {
    for (const service of open.splice(0)) await service.close();
  };
  afterEach(shut);

  it('are there again when the bench is opened again', async () => {
    const folder = newFolder();
    const first = bench(folder);
    const { id } = valueOf(await first.answers['builds.start']({ title: 'Rear axle', technician: by }));
    const written = valueOf(
      await first.answers['builds.write']({ build: id, by, deed: { kind: 'noted', topic: 'noise', text: 'hums' } }),
    );
    await shut();
    expect(valueOf(await bench(folder).answers['builds.read']({ build: id }))).toEqual(written);
  });

  it('keep gauges in the order in which they were entered, with their newest revision', async () => {
    const service = bench(newFolder());
    const labels = ['First', 'Second', 'Third'];
    const saved = [];
    for (const label of labels)
      saved.push(valueOf(await service.answers['gauges.save']({ gauge: { ...gauge, label } })));
    const [first] = saved;
    if (first === undefined) throw new Error('no gauge');
    valueOf(await service.answers['gauges.save']({ gauge: { ...first, calibratedOn: '2026-10-01' } }));
    const list = valueOf(await service.answers['gauges.list']({}));
    expect(list.map(({ label }) => label)).toEqual(labels);
    expect(list[0]?.calibratedOn).toBe('2026-10-01');
  });

  it('belong to one bench at a time', async () => {
    const folder = newFolder();
    bench(folder);
    expect(() => bench(folder)).toThrow(/database-in-use/u);
  });

  it('list the build written in last first', async () => {
    const service = bench(newFolder());
    const one = valueOf(await service.answers['builds.start']({ title: 'One', technician: by }));
    valueOf(await service.answers['builds.start']({ title: 'Two', technician: by }));
    valueOf(
      await service.answers['builds.write']({
        build: one.id,
        by,
        deed: { kind: 'noted', topic: 'note', text: 'again' },
      }),
    );
    expect(valueOf(await service.answers['builds.list']({})).map(({ title }) => title)).toEqual(['One', 'Two']);
  });
});
