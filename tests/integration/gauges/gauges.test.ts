import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { Line } from '../../../hardware-sim/lines/line.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { isNone, ok } from '../../../src/shared/basics/result.ts';
import { gaugesForTest, lineForTest, say, type TestGauges, until } from '../../support/gaugesForTest.ts';

/** Sends numbers that rise by one thousandth, at a steady rate, until stopped. */
function sending(line: Line, unit = 'mm', every_ms = 10): { stop(): void; readonly sent: () => number } {
  let sent = 0;
  const timer = setInterval(() => {
    sent += 1;
    void say(line, `${(sent / 1000).toFixed(3)} ${unit}\r\n`);
  }, every_ms);
  return { stop: () => clearInterval(timer), sent: () => sent };
}

const stateOf = (bench: TestGauges, id: string): string =>
  bench.gauges.states().find((s) => s.gauge === id)?.state ?? '';
const valuesOf = (bench: TestGauges, id: string): unknown[] =>
  bench.readings.filter((reading) => reading.gauge === id).map(({ value }) => (isNone(value) ? value.none : value));
const journaled = (bench: TestGauges, id?: string): string[] =>
  [...bench.journal.stretch(id, 1, bench.journal.last())].map((row) => row.kind);

describe.each(['pty', 'tcp'] as const)('a gauge on a %s line', (kind) => {
  const works = it.skipIf(kind === 'pty' && process.platform !== 'linux');

  works('is read, and every line is live and in the journal under the same number', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest(kind);
    const connected = await bench.gauges.connect({ id: 'a', link: line.link });
    expect(connected).toMatchObject({ ok: true, value: { state: 'live' } });
    await pause(80);
    await say(line, '0.237 mm\r\n0.238 m');
    await say(line, 'm\r\n0.2\u00ff9 mm\r\nOL\r\n0.239 mm\r\n');
    await until(() => bench.readings.length === 5);
    expect(valuesOf(bench, 'a')).toEqual([0.237, 0.238, 'noise', 'overload', 0.239]);
    const rows = [...bench.journal.stretch('a', 1, bench.journal.last())].filter((row) =>
      /reading|unread/u.test(row.kind),
    );
    expect(rows.map((row) => row.seq)).toEqual(bench.readings.map((reading) => reading.seq));
    expect(rows[0]).toMatchObject({ value: 0.237, unit: 'mm', raw: Buffer.from('0.237 mm') });
    expect(rows[2]).toMatchObject({ kind: 'unreadable', note: 'noise', raw: Buffer.from('0.2\u00ff9 mm', 'latin1') });
    expect(bench.gauges.states()).toMatchObject([{ readings: 3, unreadable: 2 }]);
  });

  works('unplugged and plugged in again is noticed and live again, each within a second', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest(kind);
    await bench.gauges.connect({ id: 'a', link: line.link });
    const stream = sending(line);
    await until(() => bench.readings.length > 20);
    const unplugging = line.unplug();
    const noticed_ms = await until(() => stateOf(bench, 'a') === 'gone');
    await unplugging;
    await pause(600);
    expect(stateOf(bench, 'a')).toBe('gone');
    expect(bench.gauges.states()[0]?.problem).toMatchObject({ sentence: expect.stringContaining('unplugged') });
    await line.replug();
    const back_ms = await until(() => stateOf(bench, 'a') === 'live');
    const before = bench.readings.length;
    await until(() => bench.readings.length > before + 20);
    stream.stop();
    expect(noticed_ms).toBeLessThan(1000);
    expect(back_ms).toBeLessThan(1000);
    expect(journaled(bench, 'a').filter((kind) => /live|gone/u.test(kind))).toEqual(['live', 'gone', 'live']);
  });
});

describe('gauges', () => {
  it('are read several at once, each with its own unit and lines', async () => {
    const bench = gaugesForTest();
    const lines = await Promise.all([lineForTest(), lineForTest(), lineForTest('tcp')]);
    const [a, b, c] = lines;
    if (a === undefined || b === undefined || c === undefined) throw new Error('three lines were asked for');
    await bench.gauges.connect({ id: 'a', link: a.link, unit: '[in_i]' });
    await bench.gauges.connect({ id: 'b', link: b.link });
    await bench.gauges.connect({
      id: 'c',
      link: c.link,
      format: { kind: 'axlewright-line-format', version: 1, decimal: ',', unit: { is: 'fixed', ucum: 'mm' } },
    });
    await pause(80);
    await Promise.all([say(a, '-.0093\r'), say(b, 'T 2.50 Nm\r'), say(c, '0,25\n')]);
    await until(() => bench.readings.length === 3);
    const told = new Map(bench.readings.map(({ gauge, value, unit }) => [gauge, [value, unit]]));
    expect(Object.fromEntries(told)).toEqual({ a: [-0.0093, '[in_i]'], b: [2.5, 'N.m'], c: [0.25, 'mm'] });
  });

  it('that answer a request are asked', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest();
    let asked = 0;
    line.onBytes((bytes) => {
      if (Buffer.from(bytes).toString('latin1').includes('D\r')) void say(line, `${(asked += 1)}.000 mm\r`);
    });
    await bench.gauges.connect({ id: 'a', link: `${line.link}?ask=D%0D&every=30` });
    await until(() => bench.readings.length >= 5);
    expect(valuesOf(bench, 'a').slice(0, 4)).toEqual([1, 2, 3, 4]);
  });

  it('that fall silent are said to be, and to send again', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest();
    await bench.gauges.connect({ id: 'a', link: line.link });
    const stream = sending(line);
    await until(() => bench.readings.length > 20);
    stream.stop();
    const noticed_ms = await until(() => stateOf(bench, 'a') === 'silent');
    expect(noticed_ms).toBeLessThan(1000);
    await say(line, '0.500 mm\r\n');
    await until(() => stateOf(bench, 'a') === 'live');
    expect(journaled(bench, 'a').filter((kind) => /silent|sending/u.test(kind))).toEqual(['silent', 'sending']);
  });

  it('that send at a button are never said to be silent', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest();
    await bench.gauges.connect({ id: 'a', link: line.link });
    await pause(80);
    for (let i = 0; i < 3; i += 1) {
      await say(line, '0.500 mm\r\n');
      await pause(300);
    }
    await pause(1000);
    expect(stateOf(bench, 'a')).toBe('live');
    expect(bench.readings).toHaveLength(3);
  });

  it('whose unit is switched leave a note of it before the first reading in the new unit', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest();
    await bench.gauges.connect({ id: 'a', link: line.link });
    await pause(80);
    await say(line, '1.000 mm\r1.000 mm\r0.0394 in\r0.0394 in\r0.0394 in\r');
    await until(() => bench.readings.length === 5);
    expect(valuesOf(bench, 'a')).toEqual([1, 1, 'unlike-the-others', 'unlike-the-others', 0.0394]);
    expect(journaled(bench, 'a').slice(-3)).toEqual(['unreadable', 'unit', 'reading']);
  });

  it('whose port is missing are told of at once, and connect by themselves when it comes', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest();
    await line.unplug();
    const connected = await bench.gauges.connect({ id: 'a', link: line.link });
    expect(connected).toMatchObject({
      ok: false,
      problem: { kind: line.link.startsWith('tcp') ? 'no-answer' : 'port-missing' },
    });
    await line.replug();
    expect(await until(() => stateOf(bench, 'a') === 'live')).toBeLessThan(1000);
  });

  it('disconnected by hand stay so, and free their port', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest();
    await bench.gauges.connect({ id: 'a', link: line.link });
    await bench.gauges.disconnect('a');
    expect(bench.states.at(-1)).toMatchObject({ gauge: 'a', state: 'unplugged-by-hand' });
    expect(await bench.gauges.connect({ id: 'b', link: line.link })).toMatchObject({ ok: true });
    expect(bench.gauges.states().map((state) => state.gauge)).toEqual(['b']);
  });

  it('connected twice at once are connected once', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest();
    const both = [1, 2].map(() => bench.gauges.connect({ id: 'a', link: line.link }));
    const results = await Promise.all(both);
    await until(() => stateOf(bench, 'a') === 'live');
    expect(results.some((result) => result.ok)).toBe(true);
    await pause(80);
    await say(line, '0.5 mm\r');
    await until(() => bench.readings.length > 0);
    await pause(50);
    expect(bench.readings).toHaveLength(1);
  });

  it('with a wrong link, format or unit are refused with the field named, and not tried', async () => {
    const bench = gaugesForTest();
    const wrong = async (wanted: object): Promise<unknown> => {
      const connected = await bench.gauges.connect({ id: 'a', link: 'tcp://127.0.0.1:1', ...wanted });
      return connected.ok ? 'connected' : connected.problem.field;
    };
    expect(await wrong({ link: 'serial:/dev/x?baud=fast' })).toBe('baud');
    expect(await wrong({ format: { kind: 'axlewright-line-format', version: 1, decimal: ';' } })).toBe('decimal');
    expect(await wrong({ unit: 'furlong' })).toBe('unit');
    expect(bench.gauges.states()).toEqual([]);
  });

  it('are not lost when a flood of 5,000 lines comes in one second: every line is in the journal', async () => {
    const bench = gaugesForTest();
    const line = await lineForTest();
    await bench.gauges.connect({ id: 'a', link: line.link });
    await pause(80);
    for (let piece = 0; piece < 50; piece += 1) {
      const lines = Array.from({ length: 100 }, (_, i) => `${((piece * 100 + i) / 1000).toFixed(3)} mm\r\n`);
      await say(line, lines.join(''));
      await pause(20);
    }
    await until(() => bench.readings.length === 5000);
    expect(valuesOf(bench, 'a')).toEqual(Array.from({ length: 5000 }, (_, i) => i / 1000));
    expect(journaled(bench, 'a').filter((kind) => kind === 'reading')).toHaveLength(5000);
  });

  it('notice that the computer slept or its clock was set', async () => {
    // A laptop cannot be put to sleep in a test: the clock given here jumps.
    let jump_ms = 0;
    const clock = { ...systemClock, wall_ms: () => systemClock.wall_ms() + jump_ms };
    const bench = gaugesForTest({
      clock,
      open: async () => ok({ write: () => undefined, close: async () => undefined }),
    });
    jump_ms = 3_600_000;
    await until(() => journaled(bench).includes('clock'));
    jump_ms = 0;
    await until(() => journaled(bench).filter((kind) => kind === 'clock').length === 2);
    const notes = [...bench.journal.stretch(undefined, 1, bench.journal.last())].flatMap((row) =>
      row.kind === 'clock' ? [row.note] : [],
    );
    expect(notes).toEqual([expect.stringContaining('slept'), expect.stringContaining('set back by 3600 s')]);
  });
});
