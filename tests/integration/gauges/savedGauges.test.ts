import { describe, expect, it, onTestFinished } from 'vitest';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import type { Heard } from '../../../src/shared/gauges/heard.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';
import { lineForTest, say, until } from '../../support/gaugesForTest.ts';

const indicator = { label: 'Indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } } as const;

function benchOn(folder: string): { readonly service: BenchService; readonly heard: Heard[]; state(): string } {
  const service = benchInNewFolder(undefined, folder);
  const heard: Heard[] = [];
  let state = 'unknown';
  service.hear('heard', (news) => heard.push(...news));
  service.hear('gauge-states', (states) => (state = states[0]?.state ?? 'unknown'));
  onTestFinished(async () => void (await service.close()));
  return { service, heard, state: () => state };
}

/** A folder in which a bench that has ended knew one gauge on this line. */
async function folderWithGauge(link: string): Promise<string> {
  const folder = newFolder();
  const before = benchInNewFolder(undefined, folder);
  valueOf(await before.answers['gauges.save']({ gauge: { ...indicator, link } }));
  await before.close();
  return folder;
}

describe('a saved gauge', () => {
  it('is opened again when the bench starts, unasked', async () => {
    const line = await lineForTest();
    const bench = benchOn(await folderWithGauge(line.link));
    await until(() => bench.state() === 'live');
    await say(line, '0.236 mm\r\n0.237 mm\r\n');
    await until(() => bench.heard.length >= 2);
    expect(bench.heard.at(-1)).toMatchObject({ value: 0.237, unit: 'mm' });
  });

  it('whose port is not there yet is opened when it appears', async () => {
    const line = await lineForTest();
    const folder = await folderWithGauge(line.link);
    await line.unplug();
    const bench = benchOn(folder);
    await until(() => bench.state() === 'problem');
    await line.replug();
    await until(() => bench.state() === 'live');
    expect(valueOf(await bench.service.answers['gauges.states']({}))).toMatchObject([{ state: 'live' }]);
  });

  it('moved to another port while it is plugged in is read there at once', async () => {
    const [one, other] = [await lineForTest(), await lineForTest()];
    const bench = benchOn(await folderWithGauge(one.link));
    await until(() => bench.state() === 'live');
    const [gauge] = valueOf(await bench.service.answers['gauges.list']({}));
    if (gauge === undefined) throw new Error('the gauge was not kept');
    valueOf(await bench.service.answers['gauges.save']({ gauge: { ...gauge, link: other.link } }));
    await expect
      .poll(async () => {
        await say(other, '0.500 mm\r\n');
        return bench.heard.length;
      })
      .toBeGreaterThan(1);
  });

  it('put away stays so until the bench is started anew', async () => {
    const line = await lineForTest();
    const folder = await folderWithGauge(line.link);
    const bench = benchOn(folder);
    await until(() => bench.state() === 'live');
    const [gauge] = valueOf(await bench.service.answers['gauges.list']({}));
    valueOf(await bench.service.answers['gauges.unplug']({ gauge: gauge?.id ?? '' }));
    expect(valueOf(await bench.service.answers['gauges.states']({}))).toEqual([]);
  });
});
