import { describe, expect, it, onTestFinished } from 'vitest';
import type { Line } from '../../../hardware-sim/lines/line.ts';
import { type Attempt, learnGauge } from '../../../src/main/gauges/learn/learnGauge.ts';
import type { OpenPort } from '../../../src/main/gauges/links/port.ts';
import { linkText, type SerialLink } from '../../../src/shared/gauges/link.ts';
import { ok } from '../../../src/shared/basics/result.ts';
import { gaugesForTest, lineForTest, say, until } from '../../support/gaugesForTest.ts';
import { latin1 } from '../../support/writeLine.ts';

const moving = (i: number): string => (Math.sin(i / 9) * 2).toFixed(3);

/** A gauge that sends by itself while its spindle is moved. */
function sending(line: Line, text: (value: string) => string): void {
  let i = 0;
  const timer = setInterval(() => void say(line, text(moving((i += 1)))), 15);
  onTestFinished(() => clearInterval(timer));
}

/**
 * A pseudo-terminal carries bytes at any baud rate, so wrong settings are made at the seam: a gauge that is understood
 * at one setting only, and otherwise gives what a wrong one gives.
 */
function gaugeAt(right: SerialLink): OpenPort {
  return async (link, listener) => {
    if (link.kind !== 'serial') throw new Error('a serial gauge');
    let i = 0;
    const send = (): void => {
      const bytes = latin1(`${moving((i += 1))} mm\r\n`);
      listener.bytes(
        link.baud === right.baud ? framed(bytes, right, link) : bytes.map((byte, n) => (byte * 37 + n * 91) | 0x81),
      );
    };
    const understood = linkText({ ...link, ask: '', every_ms: 0 }) === linkText({ ...right, ask: '', every_ms: 0 });
    const answer = (bytes: Uint8Array): void => {
      if (understood && Buffer.from(bytes).toString('latin1') === right.ask) send();
    };
    const timer = right.ask === undefined ? setInterval(send, 5) : undefined;
    return ok({ write: answer, close: async () => clearInterval(timer) });
  };
}

/** The parity bit of a 7-bit sender, seen by a listener who takes all eight for data. */
function framed(bytes: Uint8Array, sent: SerialLink, heard: SerialLink): Uint8Array {
  if (sent.bits === 8 && sent.parity !== heard.parity) return withoutStop(bytes, sent);
  if (sent.bits === 8 || heard.bits === 7) return bytes;
  const odd = (byte: number): boolean => byte.toString(2).replaceAll('0', '').length % 2 === 1;
  return bytes.map((byte) => (odd(byte) === (sent.parity === 'even') ? byte | 0x80 : byte));
}

/** A ninth bit that is 0 stands where a listener without parity wants the stop: that character is lost (a few come as zeros). */
function withoutStop(bytes: Uint8Array, { parity }: SerialLink): Uint8Array {
  const ones = (byte: number): number => byte.toString(2).replaceAll('0', '').length;
  return bytes.filter((byte) => ones(byte) % 2 === (parity === 'even' ? 1 : 0));
}

const serial = { kind: 'serial', path: 'x', baud: 9600, bits: 8, parity: 'none', stop: 1 } as const;

describe('learning a gauge', () => {
  it.each(['pty', 'tcp'] as const)('on a real %s line gives its format and what it read', async (kind) => {
    if (kind === 'pty' && process.platform !== 'linux') return;
    const line = await lineForTest(kind);
    sending(line, (value) => `X: ${value.replace('.', ',')} mm\r`);
    const learned = await learnGauge({ link: line.link, seconds: 1.2 });
    if (!learned.ok) throw new Error(learned.problem.sentence);
    expect(learned.value).toMatchObject({ sure: true, doubts: [], format: { decimal: ',', decimals: 3 } });
    expect(learned.value.samples.length).toBeGreaterThan(3);
    expect(
      learned.value.samples.every(({ raw, value }) =>
        Buffer.from(raw).toString().includes(value.toFixed(3).replace('.', ',')),
      ),
    ).toBe(true);
  });

  it.concurrent.each<SerialLink & { readonly seconds?: number }>([
    { ...serial, baud: 19_200 },
    { ...serial, bits: 7 as const, parity: 'even' as const },
    { ...serial, baud: 4800, bits: 7 as const, parity: 'odd' as const },
    { ...serial, parity: 'even' as const },
    { ...serial, parity: 'odd' as const },
    { ...serial, baud: 19_200, parity: 'even' as const, seconds: 9 },
  ])('finds $baud baud, $bits bits, parity $parity, and says what it tried', async ({ seconds = 3.5, ...right }) => {
    const said: Attempt[] = [];
    const learned = await learnGauge({
      link: 'serial:x',
      seconds,
      open: gaugeAt(right),
      onAttempt: (attempt) => said.push(attempt),
    });
    if (!learned.ok) throw new Error(learned.problem.sentence);
    expect(learned.value).toMatchObject({ sure: true, link: linkText(right) });
    expect(learned.value.attempts.length).toBeGreaterThan(1);
    expect(learned.value.attempts[0]).toMatchObject({
      link: 'serial:x?baud=9600',
      heard: { bytes: expect.any(Number) },
    });
    expect(said.length).toBe(2 * learned.value.attempts.length);
  });

  it.concurrent.each<SerialLink & { readonly seconds?: number }>([
    { ...serial, baud: 9600 },
    { ...serial, bits: 7 as const, parity: 'even' as const },
    { ...serial, stop: 2 as const },
    { ...serial, baud: 19_200, seconds: 6 },
  ])(
    'of a gauge that answers a request only at $baud baud, $bits bits, parity $parity, stop $stop, asks with each',
    async ({ seconds = 3.5, ...line }) => {
      const right: SerialLink = { ...line, ask: 'D\r', every_ms: 40 };
      const learned = await learnGauge({ link: 'serial:x?ask=D%0D&every=40', seconds, open: gaugeAt(right) });
      if (!learned.ok) throw new Error(learned.problem.sentence);
      expect(learned.value).toMatchObject({ sure: true, link: linkText(right) });
      // Never more attempts than the time allows at a quarter of a second each.
      expect(learned.value.attempts.length).toBeLessThan(seconds / 0.25);
    },
  );

  it('of a gauge that sends at its button takes each press for a line', async () => {
    const line = await lineForTest();
    const link = line.link;
    let i = 0;
    const timer = setInterval(() => void say(line, `${moving((i += 7))} mm\r\n`), 150);
    onTestFinished(() => clearInterval(timer));
    const learned = await learnGauge({ link, seconds: 2 });
    if (!learned.ok) throw new Error(learned.problem.sentence);
    expect(learned.value).toMatchObject({ sure: true, link: expect.stringContaining(link) });
  });

  it('of a gauge on a real line asks for each reading and goes on asking as learned', async () => {
    const line = await lineForTest();
    let i = 0;
    line.onBytes((bytes) => {
      for (const byte of bytes) if (byte === 0x0d) void say(line, `${moving((i += 5))} mm\r\n`);
    });
    const learned = await learnGauge({ link: `${line.link}?ask=%3F%0D&every=50`, seconds: 1.5 });
    if (!learned.ok) throw new Error(learned.problem.sentence);
    expect(learned.value).toMatchObject({ sure: true, format: { decimals: 3 } });
    expect(learned.value.link).toContain('ask=%3F%0D&every=50');
    const bench = gaugesForTest();
    await bench.gauges.connect({ id: 'a', link: learned.value.link, format: learned.value.format });
    await until(() => bench.readings.length > 3);
    expect(bench.readings.every(({ value }) => typeof value === 'number')).toBe(true);
  });

  it('is not sure of silence, and tries no other settings on it', async () => {
    const line = await lineForTest();
    const learned = await learnGauge({ link: line.link, seconds: 0.5 });
    if (!learned.ok) throw new Error(learned.problem.sentence);
    expect(learned.value).toMatchObject({ sure: false, doubts: ['nothing-heard'] });
    expect(learned.value.attempts).toHaveLength(2);
  });

  it('says why the port cannot be opened', async () => {
    const learned = await learnGauge({ link: 'serial:/dev/none-such', seconds: 1 });
    expect(learned).toMatchObject({ ok: false, problem: { kind: 'port-missing' } });
  });
});
