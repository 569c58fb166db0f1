import { describe, expect, it, onTestFinished } from 'vitest';
import type { Line } from '../../../hardware-sim/lines/line.ts';
import { openBench } from '../../../src/main/bench/bench.ts';
import { systemClock } from '../../../src/main/clock.ts';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import type { GaugeState, Port } from '../../../src/shared/contract/gauges.ts';
import type { Heard } from '../../../src/shared/gauges/heard.ts';
import { newFolder, valueOf } from '../../support/bench/open.ts';
import { lineForTest, say, until } from '../../support/gaugesForTest.ts';

const record = { label: 'Indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } } as const;
const cable = (serial?: string) => ({ vendor: '1209', product: '0001', ...(serial === undefined ? {} : { serial }) });

/** A bench whose list of ports is made here: no system lists pseudo-terminals, and none of them has a USB identity. */
function benchWith(ports: Port[], folder = newFolder()) {
  const listPorts = async (): Promise<Port[]> => ports;
  const options = { folder, clock: systemClock, version: 'test', ports: { listPorts } };
  const service = valueOf(openBench(options));
  const heard: Heard[] = [];
  let states: readonly GaugeState[] = [];
  service.hear('heard', (news) => heard.push(...news));
  service.hear('gauge-states', (news) => (states = news));
  onTestFinished(async () => void (await service.close()));
  const stateOf = (id: string): GaugeState | undefined => states.find(({ gauge }) => gauge === id);
  return { service, heard, stateOf, folder };
}

const portOf = (line: Line, usb: Port['usb']): Port => ({ link: line.link, name: line.link, simulated: false, usb });
const saved = async (service: BenchService, link: string, label = 'Indicator'): Promise<string> =>
  valueOf(await service.answers['gauges.save']({ gauge: { ...record, label, link } })).id;

describe.skipIf(process.platform !== 'linux')('a gauge by its USB adapter', () => {
  it('is found again at another port, and its record follows', async () => {
    const [old, fresh] = [await lineForTest('pty'), await lineForTest('pty')];
    const ports = [portOf(old, cable('A7'))];
    const bench = benchWith(ports);
    const id = await saved(bench.service, old.link);
    valueOf(await bench.service.answers['gauges.plug-in']({ gauge: id }));
    await until(() => bench.stateOf(id)?.state === 'live');
    await old.unplug();
    ports.splice(0, 1);
    await until(() => bench.stateOf(id)?.state === 'gone');
    ports.push(portOf(fresh, cable('A7')));
    expect(await until(() => bench.stateOf(id)?.state === 'live')).toBeLessThan(2000);
    await say(fresh, '0.236 mm\r\n0.237 mm\r\n');
    await until(() => bench.heard.length >= 2);
    expect(bench.heard.at(-1)).toMatchObject({ gauge: id, value: 0.237 });
    const [gauge] = valueOf(await bench.service.answers['gauges.list']({}));
    expect(gauge).toMatchObject({ usb: cable('A7') });
    expect(gauge?.link).toContain(fresh.link);
  });

  it('is not taken for the stranger that hangs at its old port after a restart', async () => {
    const line = await lineForTest('pty');
    const ports = [portOf(line, cable('A7'))];
    const before = benchWith(ports);
    const id = await saved(before.service, line.link);
    await before.service.close();
    const bench = benchWith([portOf(line, cable('B8'))], before.folder);
    await until(() => bench.stateOf(id)?.state === 'problem');
    expect(bench.stateOf(id)?.problem).toMatchObject({ kind: 'port-missing' });
    expect(bench.heard).toEqual([]);
  });

  it('is asked for where two cannot be told apart, and read where a person says', async () => {
    const [one, other] = [await lineForTest('pty'), await lineForTest('pty')];
    const bench = benchWith([portOf(one, cable()), portOf(other, cable())]);
    const id = await saved(bench.service, one.link);
    const refused = await bench.service.answers['gauges.plug-in']({ gauge: id });
    expect(refused).toMatchObject({ ok: false, problem: { kind: 'which-port' } });
    valueOf(await bench.service.answers['gauges.plug-in']({ gauge: id, at: other.link }));
    await until(() => bench.stateOf(id)?.state === 'live');
    await say(other, '0.300 mm\r\n0.301 mm\r\n');
    await until(() => bench.heard.length >= 2);
    expect(bench.heard.at(-1)).toMatchObject({ gauge: id, value: 0.301 });
    // What was said holds for this plugging in only: another may come back in its place.
    await other.unplug();
    await other.replug();
    await until(() => bench.stateOf(id)?.problem?.kind === 'which-port');
    expect(bench.stateOf(id)?.state).toBe('problem');
  });
});
