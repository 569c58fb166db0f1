import { once } from 'node:events';
import { setTimeout as sleep } from 'node:timers/promises';
import { SerialPort } from 'serialport';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Assembled, Mark } from '../../../hardware-sim/axle/assembled.ts';
import {
  simulatedGauges,
  type SimulatedGauges,
  type SimulatedGaugesSetup,
} from '../../../hardware-sim/gauges/simulated.ts';
import { lineKindHere } from '../../../hardware-sim/lines/line.ts';
import { realPace } from '../../../hardware-sim/lines/play.ts';
import { guardedOptions } from '../../support/guardedPort.ts';

const NO_MARK: Mark = {
  heel: 0,
  crown: 0,
  length: 0,
  height: 0,
  slant_deg: 0,
  edges: { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' },
};
const NO_PAINT = { heels: [], crowns: [], gap: new Float64Array(), share: new Float64Array() };
/** An axle of closed formulas, so that what the gauges send can be checked by hand. */
const AXLE: Assembled = {
  teeth: { pinion: 10, ring: 41 },
  backlashAt: (angle_rad) => 0.24 + 0.03 * Math.cos(angle_rad),
  heelRadius_mm: 100,
  backFaceAt: (angle_rad) => 0.025 * Math.cos(angle_rad - 1),
  flangeAt: (angle_rad) => 0.01 * Math.cos(2 * angle_rad),
  pinionDragAt: (angle_rad) => 1.8 + 0.1 * Math.sin(angle_rad),
  totalDragAt: (angle_rad) => 2.6 + 0.1 * Math.sin(angle_rad),
  breakawayFactor: 1.4,
  endPlay_mm: 0,
  paint: () => ({ convex: NO_MARK, concave: NO_MARK }),
  painted: () => ({ convex: NO_PAINT, concave: NO_PAINT }),
};

let gauges: SimulatedGauges;
let ports: SerialPort[] = [];
const setUp = async (setup: Partial<SimulatedGaugesSetup> = {}): Promise<void> => {
  gauges = await simulatedGauges({ axle: () => AXLE, seed: 5, rate_Hz: 200, ...setup });
};
beforeEach(() => {
  ports = [];
});
afterEach(async () => {
  await Promise.all(ports.map((port) => new Promise((resolve) => port.close(resolve))));
  await gauges.end();
});

/** What arrives on the gauge's own pseudo-terminal, line by line. */
async function listening(link: string): Promise<{ readonly lines: () => string[]; send(text: string): void }> {
  const port = new SerialPort({ path: link.slice('serial:'.length), baudRate: 9600, ...guardedOptions });
  ports.push(port);
  let text = '';
  port.on('data', (bytes: Buffer) => (text += bytes.toString('latin1')));
  await once(port, 'open');
  return { lines: () => text.split('\r\n').slice(0, -1), send: (out) => void port.write(out) };
}

const spanOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
const numbersOf = (lines: readonly string[]): number[] => lines.map((line) => Number.parseFloat(line));

/** Runs an action and gives what it settled with and the readings that came meanwhile. */
async function during<T>(
  link: string,
  act: () => Promise<T>,
): Promise<{ truth: T; values: number[]; lines: string[] }> {
  const heard = await listening(link);
  await sleep(30);
  const from = heard.lines().length;
  const truth = await act();
  await sleep(50);
  const lines = heard.lines().slice(from);
  return { truth, lines, values: numbersOf(lines) };
}

/** The longest stretch off the free end in which neighbours differ by little: the stem on the turning surface. */
function longestSmooth(values: readonly number[]): readonly number[] {
  const free = Math.min(...values);
  let longest: readonly number[] = [];
  let run: number[] = [];
  for (const value of values) {
    const follows = value > free + 0.5 && Math.abs(value - (run.at(-1) ?? value)) < 0.012;
    run = follows ? [...run, value] : [];
    if (run.length > longest.length) longest = run;
  }
  return longest;
}

/** The backlash of each station, the slow way: what lies between two hangings, its most frequent value on either side. */
function spansBetweenLifts(values: readonly number[]): number[] {
  const hanging = values.reduce((least, value) => Math.min(least, value), Infinity);
  const onTooth = values.map((value) => value > hanging + 0.5);
  const spans: number[] = [];
  let group: number[] = [];
  for (const [index, value] of values.entries()) {
    if (onTooth[index] === true) group.push(value);
    else if (group.length > 0) {
      spans.push(spanOfPlateaus(group));
      group = [];
    }
  }
  return spans;
}
function spanOfPlateaus(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(Math.round(value * 200), (counts.get(Math.round(value * 200)) ?? 0) + 1);
  const frequent = [...counts].filter(([, count]) => count > 25).map(([place]) => place / 200);
  return spanOf(frequent);
}

describe.runIf(lineKindHere() === 'pty')('simulated gauges on pseudo-terminals', () => {
  it('idle, send their steady value', async () => {
    await setUp();
    const heard = await listening(gauges.indicator.link);
    await sleep(400);
    const values = numbersOf(heard.lines().slice(1));
    expect(values.length).toBeGreaterThan(50);
    expect(spanOf(values)).toBeLessThan(0.008);
    expect(
      heard
        .lines()
        .slice(1)
        .every((line) => /^[+-]\d+\.\d{3} mm$/.test(line)),
    ).toBe(true);
  });

  it('let the backlash of every station be found in what arrives', async () => {
    await setUp();
    const { truth, values } = await during(gauges.indicator.link, () => gauges.indicator.rock(3, { rocks: 4 }));
    expect(truth.map((station) => station.backlash_mm)).toEqual([
      0.27,
      expect.closeTo(0.225, 9),
      expect.closeTo(0.225, 9),
    ]);
    const spans = spansBetweenLifts(values);
    expect(spans).toHaveLength(3);
    for (const [station, span] of spans.entries()) {
      expect(Math.abs(span - (truth[station]?.held_mm ?? 0))).toBeLessThan(0.011);
    }
  });

  it('show the runout of the back face and of the flange', async () => {
    await setUp();
    const fast = { speed_rad_s: 6 * Math.PI, rest_s: 0.2 } as const;
    for (const surface of ['back-face', 'flange'] as const) {
      const { truth, values } = await during(gauges.indicator.link, () => gauges.indicator.turn({ surface, ...fast }));
      expect(Math.abs(spanOf(longestSmooth(values)) - truth.tir_mm)).toBeLessThan(0.01);
      expect(truth.tir_mm).toBeCloseTo(surface === 'flange' ? 0.02 : 0.05, 6);
      ports.splice(0).forEach((port) => port.close());
      await sleep(50);
    }
  });

  it('show breakaway and running torque, of the pinion and in all', async () => {
    await setUp();
    const { truth, values } = await during(gauges.torque.link, () =>
      gauges.torque.turn({ drag: 'total', turns: 1, rest_s: 0.2 }),
    );
    expect(truth.running_Nm).toBeCloseTo(2.6, 6);
    expect(Math.abs(Math.max(...values) - truth.breakaway_Nm)).toBeLessThan(0.15);
    expect(values.filter((value) => value > 2.3 && value < 2.9).length).toBeGreaterThan(150);
  });

  it('can be zeroed and switched to inches while sending', async () => {
    await setUp();
    const heard = await listening(gauges.indicator.link);
    gauges.indicator.pressZero();
    gauges.indicator.pressUnit();
    await sleep(150);
    expect(heard.lines().at(-1)).toMatch(/^[+-]0\.000\d\d in$/);
  });

  it('send only when asked, where they wait to be asked', async () => {
    await setUp({ indicator: { sends: { asked: 'D\r' } } });
    const heard = await listening(gauges.indicator.link);
    await sleep(100);
    expect(heard.lines()).toEqual([]);
    heard.send('D');
    heard.send('\rD\r');
    await sleep(100);
    expect(heard.lines()).toHaveLength(2);
  });

  it('send on the button, where they have one', async () => {
    await setUp({ indicator: { sends: 'on-button' } });
    const heard = await listening(gauges.indicator.link);
    gauges.indicator.pressSend();
    await sleep(100);
    expect(heard.lines()).toHaveLength(1);
  });

  it('misbehave as they are told, and come back by themselves', async () => {
    await setUp({ indicator: { faults: 'unplug@0.3,replug@0.5' } });
    const heard = await listening(gauges.indicator.link);
    const [port] = ports;
    if (port === undefined) throw new Error('no port');
    await once(port, 'close');
    ports.splice(0);
    expect(heard.lines().length).toBeGreaterThan(10);
    await sleep(400);
    const again = await listening(gauges.indicator.link);
    await sleep(100);
    expect(again.lines().length).toBeGreaterThan(5);
  });

  it('say when their battery is low, and measure again with a new one', async () => {
    await setUp();
    const heard = await listening(gauges.torque.link);
    await gauges.torque.mishap('battery');
    await sleep(100);
    expect(heard.lines().at(-1)).toBe('BATTERY');
    await gauges.torque.mishap('well');
    await sleep(100);
    expect(heard.lines().at(-1)).toMatch(/^[+-]0\.0\d Nm$/);
  });

  it('work faster than the clock where nobody wants to wait', async () => {
    // Held between clock readings taken around it, so that a slow machine cannot fail it.
    const before = performance.now();
    const pace = realPace(10);
    const after = performance.now();
    await sleep(20);
    const asked = performance.now();
    const now_s = pace.now_s();
    expect(now_s).toBeGreaterThanOrEqual((asked - after) / 100);
    expect(now_s).toBeLessThanOrEqual((performance.now() - before) / 100);
    await setUp({ speed: 10 });
    const { lines } = await during(gauges.indicator.link, () => gauges.indicator.rock(2, { rocks: 4 }));
    // Two stations of four rocks take more than two seconds of the gauge's own time, 200 readings each.
    expect(lines.length).toBeGreaterThan(400);
  });

  it('end a motion with an error when they are taken away in the middle of it', async () => {
    await setUp();
    const turning = gauges.torque.turn({ drag: 'pinion' });
    const taken = expect(turning).rejects.toThrow(/taken away/);
    await sleep(50);
    await gauges.end();
    await taken;
  });
});
