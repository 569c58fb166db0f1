import { describe, expect, it, onTestFinished } from 'vitest';
import { modbusServer } from '../../../hardware-sim/lines/modbusServer.ts';
import { benchInNewFolder, valueOf } from '../../support/bench/open.ts';
import { lineForTest, until } from '../../support/gaugesForTest.ts';

describe.skipIf(process.platform !== 'linux')('the registers of a gauge over Modbus', () => {
  async function served(awake = true) {
    const line = await lineForTest('pty');
    const words = new Map([
      [16, 0xff_ff],
      [17, 0xf8_2f],
    ]);
    const answer = modbusServer({ unit: 7, register: (address) => words.get(address) });
    line.onBytes((bytes) => {
      for (const frame of answer(bytes)) if (awake) void line.write(frame);
    });
    const service = benchInNewFolder();
    onTestFinished(async () => void (await service.close()));
    return { service, link: `${line.link.replace('serial:', 'modbus:')}?unit=7&register=16` };
  }

  it('are shown as they stand, and a gauge that is read there goes on afterwards', async () => {
    const { service, link } = await served();
    const gauge = { label: 'Dial', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' }, unit: 'mm' } as const;
    const { id } = valueOf(await service.answers['gauges.save']({ gauge: { ...gauge, link: `${link}&every=30` } }));
    valueOf(await service.answers['gauges.plug-in']({ gauge: id }));
    let heard = 0;
    service.hear('heard', (news) => (heard += news.length));
    await until(() => heard > 0);
    expect(valueOf(await service.answers['gauges.registers']({ link }))).toEqual({
      first: 16,
      words: [0xff_ff, 0xf8_2f],
    });
    const before = heard;
    await until(() => heard > before + 2);
  });

  it('are said not to answer, with what to look at', async () => {
    const { service, link } = await served(false);
    expect(await service.answers['gauges.registers']({ link })).toMatchObject({
      ok: false,
      problem: { kind: 'no-answer', sentence: expect.stringContaining('registers 16 and 17') },
    });
    expect(await service.answers['gauges.registers']({ link: 'keyboard:' })).toMatchObject({
      ok: false,
      problem: { kind: 'no-registers' },
    });
  });
});
