import net from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it, onTestFinished } from 'vitest';
import { isNone } from '../../../src/shared/basics/result.ts';
import { gaugesForTest, lineForTest, say, type TestGauges, until } from '../../support/gaugesForTest.ts';
import { hasPymodbus, hasSer2net, modbusSlaveOn, serialServerBefore, where } from '../../support/peers.ts';

const numbers = ({ readings }: TestGauges): number[] =>
  readings.flatMap(({ value }) => (typeof value === 'number' ? [value] : []));
const reasons = ({ readings }: TestGauges): string[] =>
  readings.flatMap(({ value }) => (isNone(value) ? [value.none] : []));
const terminalOf = (link: string): string => link.replace('serial:', '');

describe.skipIf(!hasSer2net)(`ser2net before a gauge${where(hasSer2net, 'ser2net')}`, { timeout: 20_000 }, () => {
  it('brings its lines, and takes what it is asked', async () => {
    const line = await lineForTest('pty');
    const port = await serialServerBefore(terminalOf(line.link));
    let asked = 0;
    line.onBytes((bytes) => {
      if (Buffer.from(bytes).toString('latin1').includes('D\r')) void say(line, `0.10${(asked += 1) % 10} mm\r\n`);
    });
    const bench = gaugesForTest();
    await bench.gauges.connect({ id: 'a', link: `tcp://127.0.0.1:${port}?ask=D%0D&every=100` });
    await until(() => numbers(bench).length >= 4);
    expect(numbers(bench).slice(0, 4)).toEqual([0.101, 0.102, 0.103, 0.104]);
    expect(reasons(bench)).toEqual([]);
  });

  it('that has another client says so as if it were data: no number comes of it, and the gauge is read when the other leaves', async () => {
    const line = await lineForTest('pty');
    const port = await serialServerBefore(terminalOf(line.link));
    const other = net.connect(port, '127.0.0.1');
    onTestFinished(() => void other.destroy());
    other.on('error', () => undefined);
    await new Promise<void>((resolve) => void other.once('connect', () => resolve()));
    const bench = gaugesForTest();
    await bench.gauges.connect({ id: 'a', link: `tcp://127.0.0.1:${port}` });
    await until(() => bench.gauges.states()[0]?.state === 'gone');
    await pause(1500);
    expect(numbers(bench)).toEqual([]);
    other.destroy();
    await until(() => bench.gauges.states()[0]?.state === 'live');
    await pause(300);
    await say(line, '0.237 mm\r\n0.238 mm\r\n');
    await until(() => numbers(bench).length >= 2);
    expect(numbers(bench)).toEqual([0.237, 0.238]);
  });
});

describe.skipIf(!hasPymodbus)(
  `pymodbus as a gauge with registers${where(hasPymodbus, 'python3-pymodbus')}`,
  { timeout: 30_000 },
  () => {
    /** Two terminals joined: its own, and that of the bench. */
    async function joined(holding: string, input = '0') {
      const [its, ours] = [await lineForTest('pty'), await lineForTest('pty')];
      its.onBytes((bytes) => void ours.write(bytes));
      ours.onBytes((bytes) => void its.write(bytes));
      await modbusSlaveOn(terminalOf(its.link), holding, input);
      return (options: string) => `${ours.link.replace('serial:', 'modbus:')}?baud=19200&parity=none&${options}`;
    }

    async function first(link: string): Promise<number | string> {
      const bench = gaugesForTest();
      await bench.gauges.connect({ id: 'a', link, unit: 'mm' });
      await until(() => bench.readings.length > 0);
      const value = bench.readings[0]?.value ?? Number.NaN;
      await bench.gauges.close();
      return isNone(value) ? value.none : value;
    }

    it('is read register by register: signed, two together either way round, floating, holding and input', async () => {
      // 1.234; −0.123 over two registers; the same the other way round; 1.5 as IEEE 754; input register 0: 77.
      const link = await joined('04D2 FFFF FF85 FF85 FFFF 3FC0 0000', '004D');
      expect(await first(link('unit=7&register=0&scale=0.001&every=50'))).toBe(1.234);
      expect(await first(link('unit=7&register=2&type=s16&scale=0.001&every=50'))).toBe(-0.123);
      expect(await first(link('unit=7&register=1&type=s32&scale=0.001&every=50'))).toBe(-0.123);
      expect(await first(link('unit=7&register=3&type=s32&order=low-first&scale=0.001&every=50'))).toBe(-0.123);
      expect(await first(link('unit=7&register=5&type=f32&every=50'))).toBe(1.5);
      expect(await first(link('unit=7&register=0&function=4&scale=0.001&every=50'))).toBe(0.077);
    });

    it('says that it has no such register, and another unit says nothing', async () => {
      const link = await joined('04D2');
      expect(await first(link('unit=7&register=40&every=50'))).toBe('gauge-error');
      const bench = gaugesForTest();
      await bench.gauges.connect({ id: 'b', link: link('unit=9&register=0&every=50'), unit: 'mm' });
      await until(() => bench.gauges.states()[0]?.state === 'silent');
      expect(bench.readings).toEqual([]);
    });
  },
);
