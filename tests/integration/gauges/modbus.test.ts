import { describe, expect, it, onTestFinished } from 'vitest';
import { modbusServer } from '../../../hardware-sim/lines/modbusServer.ts';
import { hold } from '../../../hardware-sim/hands/motion.ts';
import { indicator, type IndicatorTraits } from '../../../hardware-sim/gauges/indicator.ts';
import { liveGauge } from '../../../hardware-sim/gauges/live.ts';
import { seeded } from '../../../hardware-sim/seeded.ts';
import { learnGauge } from '../../../src/main/gauges/learn/learnGauge.ts';
import { isNone } from '../../../src/shared/basics/result.ts';
import { gaugesForTest, lineForTest, until } from '../../support/gaugesForTest.ts';

const asModbus = (link: string, options: string): string => `${link.replace('serial:', 'modbus:')}?${options}`;

describe.skipIf(process.platform !== 'linux')('a gauge asked over Modbus on a pseudo-terminal', () => {
  it('is read through line format and journal, its frames kept; spoilt ones are refused and counted', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest('pty');
    let asked = 0;
    const spoilt = (frame: Uint8Array): Uint8Array => frame.map((byte, i) => (i === 4 ? byte ^ 4 : byte));
    const answer = modbusServer({
      unit: 7,
      register: (address) => (address === 16 ? (asked += 1) : undefined),
      spoil: (frame) => (asked === 4 ? spoilt(frame) : frame),
    });
    line.onBytes((bytes) => {
      for (const frame of answer(bytes)) void line.write(frame);
    });
    await bench.gauges.connect({
      id: 'a',
      link: asModbus(line.link, 'unit=7&register=16&scale=0.001&every=30'),
      unit: 'mm',
    });
    await until(() => bench.readings.length >= 6);
    expect(bench.readings.slice(0, 6).map(({ value }) => (isNone(value) ? value.none : value))).toEqual([
      0.001,
      0.002,
      0.003,
      'checksum',
      0.005,
      0.006,
    ]);
    expect(bench.readings[0]?.unit).toBe('mm');
    const rows = [...bench.journal.stretch('a', 1, bench.journal.last())];
    const row = rows.find(({ kind }) => kind === 'reading') as { raw: Uint8Array };
    expect(Buffer.from(row.raw).toString('latin1')).toMatch(/^0703020001[0-9A-F]{4} \+0+\.001 /u);
    // Unit 7 has no register 17.
    await bench.gauges.connect({ id: 'a', link: asModbus(line.link, 'unit=7&register=17&every=30'), unit: 'mm' });
    await until(() => bench.readings.some(({ value }) => isNone(value) && value.none === 'gauge-error'));
  });

  it('that does not answer is said to be silent, and is read again when it does', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest('pty');
    let awake = false;
    const answer = modbusServer({ unit: 1, register: () => 5 });
    line.onBytes((bytes) => {
      for (const frame of answer(bytes)) if (awake) void line.write(frame);
    });
    await bench.gauges.connect({ id: 'a', link: asModbus(line.link, 'unit=1&every=30'), unit: 'mm' });
    const state = (): string => bench.gauges.states()[0]?.state ?? '';
    expect(await until(() => state() === 'silent')).toBeLessThan(1500);
    awake = true;
    await until(() => state() === 'live' && bench.readings.length > 2);
    expect(bench.readings.at(-1)?.value).toBe(5);
  });

  it('unplugged between question and answer is told once, and read again when it is back', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest('pty');
    const answer = modbusServer({ unit: 1, register: () => 5 });
    line.onBytes((bytes) => {
      for (const frame of answer(bytes)) void line.write(frame);
    });
    await bench.gauges.connect({ id: 'a', link: asModbus(line.link, 'unit=1&every=20'), unit: 'mm' });
    for (let time = 0; time < 8; time += 1) {
      const before = bench.readings.length;
      await until(() => bench.readings.length > before + 1);
      await line.unplug();
      expect(await until(() => bench.gauges.states()[0]?.state === 'gone')).toBeLessThan(1000);
      await line.replug();
      await until(() => bench.gauges.states()[0]?.state === 'live');
    }
    const kinds = [...bench.journal.stretch('a', 1, bench.journal.last())].map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'gone')).toHaveLength(8);
  });

  it('can be the simulated indicator, and is never learned by guessing', async () => {
    const bench = gaugesForTest();
    const traits: IndicatorTraits = {
      unit: 'mm',
      resolution: 0.001,
      noise_mm: 0,
      hysteresis_mm: 0,
      errorAt: () => 0,
      statedError_mm: 0.004,
      statedHysteresis_mm: 0.002,
      travel_mm: 10,
      sign: -1,
      zero_mm: 0,
    };
    const gauge = await liveGauge({
      gauge: indicator(traits, seeded(1)),
      rate_Hz: 100,
      kind: 'pty',
      sends: { modbus: { unit: 3, register: 40 } },
    });
    onTestFinished(() => gauge.end());
    const link = asModbus(gauge.link, 'unit=3&register=40&type=s32&scale=0.001&every=30');
    await bench.gauges.connect({ id: 'a', link, unit: 'mm' });
    await gauge.run([hold('idle', 0.5, 1.237)]);
    expect(bench.readings.at(-2)?.value).toBe(-1.237);
    expect(await learnGauge({ link, seconds: 1 })).toMatchObject({ ok: false, problem: { kind: 'nothing-to-learn' } });
  });
});
