import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { demoAxle } from '../../../hardware-sim/axle/demo.ts';
import { simulateSeed, simulateStations } from '../../../src/main/cli/verbs/simulate.ts';
import { asProgram, inProcess, type Running, start } from '../../support/commandLine.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { lineForTest, say, until } from '../../support/gaugesForTest.ts';
import { asLines } from '../../support/streams.ts';

interface Line {
  readonly t: number;
  readonly value: number | { readonly none: string };
  readonly unit: string;
  readonly raw: string;
  readonly flags: readonly string[];
}

/** `simulate` in a process of its own, and the link it serves. */
async function simulated(...words: readonly string[]): Promise<{ readonly link: string; readonly running: Running }> {
  const running = start(['simulate', ...words]);
  const [answer] = (await running.answered(1)) as readonly [{ readonly link: string }];
  return { link: answer.link, running };
}

const fileOf = (content: unknown): string => {
  const file = join(temporaryFolder(), 'file.json');
  writeFileSync(file, JSON.stringify(content));
  return file;
};
const formatFile = (fields: object): string => fileOf({ kind: 'axlewright-line-format', version: 1, ...fields });

/** The number in a raw line as whole steps of its last place, sign included: "0;+0,237;M4A" has 237. */
const stepsIn = (raw: string): number =>
  Number((/[+-]\s*\d*[.,]?\d*/u.exec(raw)?.[0] ?? 'none').replaceAll(/[.,\s]/gu, '')) + 0;

const formats = [
  [
    'fields, a comma and check characters',
    {
      lineEnd: '\u0003',
      start: '\u0002',
      number: { at: 'field', separator: ';', field: 2 },
      decimal: ',',
      unit: { is: 'placed', place: { at: 'field', separator: ';', field: 3 }, words: { M: 'mm', I: '[in_i]' } },
      checksum: { is: 'xor-hex' },
      decimals: 3,
    },
    { unit: 'mm', perUnit: 1000 },
  ],
  [
    'columns of a fixed length',
    {
      number: { at: 'columns', from: 3, to: 12 },
      unit: { is: 'fixed', ucum: '[in_i]' },
      decimals: 4,
      length: 14,
    },
    { unit: '[in_i]', perUnit: 10_000 },
  ],
  [
    'digits only',
    { impliedDecimals: 3, unit: { is: 'fixed', ucum: 'mm' }, lineEnd: '\r' },
    { unit: 'mm', perUnit: 1000 },
  ],
] as const;

// Pseudo-terminals are served on Linux; elsewhere the same gauges are served over TCP.
describe('simulate in one process, watch and learn in others', () => {
  it.each(formats)('reads what is written: %s', async (_name, fields, { unit, perUnit }) => {
    const file = formatFile(fields);
    const { link } = await simulated('--gauge', 'indicator', '--format', file);
    expect(link).toMatch(process.platform === 'linux' ? /^serial:\// : /^tcp:/u);
    const { code, answers } = await asProgram(['watch', '--link', link, '--format', file, '--count', '250']);
    const lines = answers as readonly Line[];
    expect(code).toBe(0);
    expect(lines).toHaveLength(250);
    const read = lines.filter(({ value }) => typeof value === 'number');
    // Every line but perhaps the first, which may have begun before the link was open.
    expect(read.length).toBeGreaterThanOrEqual(249);
    for (const line of read) {
      expect(line.unit).toBe(unit);
      expect(Math.round(Number(line.value) * perUnit) + 0).toBe(stepsIn(line.raw));
    }
    const values = read.map(({ value }) => Number(value));
    expect(Math.max(...values) - Math.min(...values)).toBeGreaterThan(0.005);
    const times = lines.map(({ t }) => t);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
  });

  it('learns a gauge, is sure, and watches it by what it learned', async () => {
    const { link } = await simulated('--gauge', 'indicator', '--format', 'auto');
    const { code, answers } = await asProgram(['learn', '--link', link, '--seconds', '3']);
    const [answer] = answers as readonly Readonly<Record<string, unknown>>[];
    expect(code).toBe(0);
    expect(answers).toHaveLength(1);
    expect(Object.keys(answer ?? {})).toEqual(['link', 'format', 'confidence', 'samples', 'alternatives']);
    expect(answer?.['samples']).toContainEqual({ raw: expect.any(String), value: expect.any(Number), unit: 'mm' });
    for (const kept of [answer?.['format'], answer]) {
      const watched = await asProgram(['watch', '--link', link, '--format', fileOf(kept), '--count', '20']);
      expect(watched.code).toBe(0);
      expect(watched.answers.at(-1)).toMatchObject({ value: expect.any(Number), unit: 'mm' });
    }
  });

  it.each([
    ['silence', /Nothing was heard/u],
    ['endless', /No line end/u],
    ['frozen', /did not change/u],
    ['wrong-baud', /no text|No line end/u],
  ])('is not sure of a gauge with the fault %s', async (fault, doubt) => {
    const format = formatFile({ unit: { is: 'not-sent' } });
    const { link } = await simulated('--gauge', 'indicator', '--format', format, '--faults', fault);
    const { code, answers, said } = await asProgram(['learn', '--link', link, '--seconds', '2']);
    const [answer] = answers as readonly { readonly confidence: number }[];
    expect(code).toBe(1);
    expect(answer?.confidence).toBeLessThan(0.8);
    expect(said).toMatch(doubt);
  });

  it('measures what it watched: the backlash of the simulated axle', async () => {
    const { link } = await simulated('--gauge', 'indicator', '--format', 'auto');
    // Fifteen seconds hold four stations and more, wherever in the hand's round this begins.
    const watched = await asProgram(['watch', '--link', link, '--count', '1500']);
    const measured = await asProgram(
      ['measure', 'backlash', '--in', '-', '--resolution', '0.001mm'],
      asLines(watched.answers as readonly object[]),
    );
    const [answer] = measured.answers as readonly { readonly stations: readonly { readonly value_mm: unknown }[] }[];
    const values = (answer?.stations ?? [])
      .map(({ value_mm }) => value_mm)
      .filter((value) => typeof value === 'number');
    const axle = demoAxle(simulateSeed);
    const standing = axle.assemble(axle.thirdTrial);
    const truths = Array.from({ length: simulateStations }, (_, station) =>
      standing.backlashAt((2 * Math.PI * station) / simulateStations),
    );
    expect(values.length).toBeGreaterThanOrEqual(2);
    // The indicator may be 4 µm off by its scale and 2 µm by hysteresis, and the hand presses 1.5 µm.
    for (const value of values) {
      expect(value).toBeGreaterThan(Math.min(...truths) - 0.008);
      expect(value).toBeLessThan(Math.max(...truths) + 0.008);
    }
  });

  it('serves a torque gauge in its own unit', async () => {
    const format = formatFile({ unit: { is: 'beside', words: { 'lbf.in': '[lbf_av].[in_i]' } }, decimals: 1 });
    const { link } = await simulated('--gauge', 'torque', '--format', format, '--rate', '50');
    const { code, answers } = await asProgram(['watch', '--link', link, '--format', format, '--count', '250']);
    const lines = (answers as readonly Line[]).slice(1);
    expect(code).toBe(0);
    expect(lines.every(({ unit, raw }) => unit === '[lbf_av].[in_i]' && raw.endsWith(' lbf.in'))).toBe(true);
    expect(Math.max(...lines.map(({ value }) => Number(value)))).toBeGreaterThan(1);
  });
});

/** The number in the registers of an answer as it came over the wire, worked out here from its bytes. */
function numberIn(raw: string, type: string): number {
  const frame = Buffer.from(/^[0-9A-F]+/u.exec(raw)?.[0] ?? '', 'hex');
  expect([frame[1], frame[2]]).toEqual([type === 's16' ? 4 : 3, frame.length - 5]);
  if (type === 's16') return frame.readInt16BE(3);
  const turned = type === 'f32' ? Buffer.of(...frame.subarray(5, 7), ...frame.subarray(3, 5)) : frame.subarray(3, 7);
  return type === 'f32' ? turned.readFloatBE(0) : turned.readInt32BE(0);
}

// Registers are asked for over a serial line, and only Linux has pseudo-terminals that can be served.
describe.skipIf(process.platform !== 'linux')('simulate over Modbus in one process, watch in another', () => {
  it.each([
    ['auto', '?baud=9600&unit=1&register=0&type=s32&scale=0.001', 's32', 0.001],
    ['unit=9&register=40&function=4&scale=0.001&every=20', undefined, 's16', 0.001],
    ['register=7&type=f32&order=low-first&every=20', undefined, 'f32', 1],
  ])('reads what is held: %s', async (options, whole, type, scale) => {
    const { link } = await simulated('--gauge', 'indicator', '--modbus', options);
    expect(link).toMatch(/^modbus:\//u);
    if (whole !== undefined) expect(link.slice(link.indexOf('?'))).toBe(whole);
    const { code, answers } = await asProgram(['watch', '--link', link, '--unit', 'mm', '--count', '40']);
    const lines = answers as readonly Line[];
    expect(code).toBe(0);
    expect(lines).toHaveLength(40);
    for (const { value, unit, raw } of lines) {
      expect(value).toBeCloseTo(numberIn(raw, type) * scale, 6);
      expect(unit).toBe('mm');
    }
    const values = lines.map(({ value }) => Number(value));
    expect(Math.max(...values) - Math.min(...values)).toBeGreaterThan(0.005);
  });

  it('serves a torque gauge, and one that ails has no number', async () => {
    const modbus = ['--modbus', 'type=s32&scale=0.01&every=20', '--faults', 'error@6'];
    const { link } = await simulated('--gauge', 'torque', ...modbus);
    const running = start(['watch', '--link', link, '--unit', 'N.m']);
    const lines = (): readonly Line[] => running.answers() as readonly Line[];
    await until(() => lines().some(({ value }) => Number(value) > 0.3));
    await until(() => typeof lines().at(-1)?.value === 'object');
    expect(lines().at(-1)).toMatchObject({ value: { none: 'gauge-error' }, raw: expect.stringMatching(/ERROR 4/u) });
  });

  it('spoils its answers, and no number is read that was not held', async () => {
    const options = ['--modbus', 'type=s32&scale=0.001&every=20', '--faults', 'half'];
    const { link } = await simulated('--gauge', 'indicator', ...options);
    const { answers } = await asProgram(['watch', '--link', link, '--unit', 'mm', '--count', '60']);
    const lines = answers as readonly Line[];
    const unreadable = lines.filter(({ value }) => typeof value === 'object');
    expect(unreadable.length).toBeGreaterThan(2);
    for (const { value, raw } of lines) {
      if (typeof value === 'number') expect(value).toBeCloseTo(numberIn(raw, 's32') * 0.001, 6);
      else expect(value).toEqual({ none: 'checksum' });
    }
  });
});

describe('watch', () => {
  it('passes over no line: what cannot be read stands there with its reason', async () => {
    const { link } = await simulated('--gauge', 'indicator', '--format', 'auto', '--faults', 'half');
    const { answers } = await asProgram(['watch', '--link', link, '--count', '200']);
    const unreadable = (answers as readonly Line[]).filter(({ value }) => typeof value === 'object');
    expect(answers).toHaveLength(200);
    expect(unreadable.length).toBeGreaterThan(10);
    for (const { value, unit } of unreadable) {
      expect(value).toEqual({ none: expect.stringMatching(/^[a-z-]+$/u) });
      expect(unit).toBe('');
    }
  });

  it('goes on by itself when the gauge is plugged in again', async () => {
    // The cable is pulled once lines flow, however long a loaded machine takes to start a program. Over TCP, because a
    // program started from here inherits this process's end of a pseudo-terminal, which then never hangs up.
    const line = await lineForTest('tcp');
    const sending = setInterval(() => void say(line, '0.237 mm\r\n'), 10);
    onTestFinished(() => clearInterval(sending));
    const running = start(['watch', '--link', line.link]);
    await running.answered(20);
    await line.unplug();
    await until(() => /unplugged|Nothing answers/u.test(running.said()));
    await line.replug();
    await running.answered(running.answers().length + 50);
    running.child.kill('SIGINT');
    const { code, said } = await running.ended;
    expect(code).toBe(0);
    expect(said.match(/The link is open/gu)).toHaveLength(2);
  });

  it.each(['SIGINT', 'SIGTERM'] as const)('ends cleanly on %s, and so does simulate', async (signal) => {
    const { link, running } = await simulated('--gauge', 'indicator', '--format', 'auto');
    const watching = start(['watch', '--link', link]);
    await watching.answered(5);
    watching.child.kill(signal);
    expect(await watching.ended).toMatchObject({ code: 0 });
    running.child.kill(signal);
    expect(await running.ended).toMatchObject({ code: 0, answers: [{ link }] });
    // The line is gone with its gauge.
    const { code, answers, said } = await inProcess('watch', '--link', link);
    expect({ code, answers }).toEqual({ code: 1, answers: [] });
    expect(said).toMatch(/There is no port|Nothing answers/u);
  });

  it('ends quietly when nobody reads its answers any more', async () => {
    const { link } = await simulated('--gauge', 'indicator', '--format', 'auto');
    const watching = start(['watch', '--link', link]);
    await watching.answered(2);
    watching.child.stdout.destroy();
    const { code, said } = await watching.ended;
    expect(code).toBe(0);
    expect(said).not.toMatch(/EPIPE|Error/u);
  });
});
