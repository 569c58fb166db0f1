import net from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openTcp } from '../../../src/main/gauges/links/tcp.ts';
import { gaugesForTest, type TestGauges, until } from '../../support/gaugesForTest.ts';
import { latin1 } from '../../support/writeLine.ts';

/** A serial server of ours that does with each connection what it is told, and counts them. */
async function server(answer: (socket: net.Socket, nth: number) => void, host = '127.0.0.1') {
  const sockets = new Set<net.Socket>();
  let connections = 0;
  const listening = net.createServer((socket) => {
    socket.on('error', () => undefined);
    sockets.add(socket);
    socket.resume();
    answer(socket, (connections += 1));
  });
  await new Promise<void>((resolve) => void listening.listen(0, host, resolve));
  onTestFinished(() => {
    listening.close();
    for (const socket of sockets) socket.destroy();
  });
  const { port } = listening.address() as net.AddressInfo;
  return { port, sockets, connections: () => connections };
}

const comingAndGoing = ({ journal }: TestGauges): string[] =>
  [...journal.stretch('a', 1, journal.last())].map(({ kind }) => kind).filter((kind) => /live|gone/u.test(kind));

describe('a serial server', { timeout: 10_000 }, () => {
  it('that resets the connection in mid-line loses that line only, and is connected to anew', async () => {
    const at = await server((socket, nth) => {
      socket.write(latin1('0.101 mm\r\n0.102 mm\r\n'));
      if (nth === 1)
        setTimeout(() => socket.write(latin1('0.1'), () => setTimeout(() => socket.resetAndDestroy(), 30)), 80);
      else setTimeout(() => socket.write(latin1('0.103 mm\r\n')), 80);
    });
    const bench = gaugesForTest();
    await bench.gauges.connect({ id: 'a', link: `tcp://127.0.0.1:${at.port}` });
    await until(() => bench.readings.some(({ value }) => value === 0.103));
    const values = bench.readings.map(({ value }) => (typeof value === 'number' ? value : value.none));
    expect(values).toEqual([0.101, 0.102, 'cut-off', 0.101, 0.102, 0.103]);
    expect(bench.states.map(({ state }) => state)).toEqual(expect.arrayContaining(['gone', 'live']));
  });

  it('that takes the connection and says nothing is silent within a second where the gauge is asked', async () => {
    const at = await server(() => undefined);
    const bench = gaugesForTest();
    await bench.gauges.connect({ id: 'a', link: `tcp://127.0.0.1:${at.port}?ask=D%0D&every=100` });
    const silentAfter_ms = await until(() => bench.states.some(({ state }) => state === 'silent'));
    expect(silentAfter_ms).toBeLessThan(1000);
    expect(bench.readings).toEqual([]);
  });

  it('that takes the connection and hangs up is said to do so, and fills no journal', async () => {
    const at = await server((socket) => socket.end());
    const bench = gaugesForTest();
    await bench.gauges.connect({ id: 'a', link: `tcp://127.0.0.1:${at.port}` });
    await pause(2500);
    expect(at.connections()).toBeGreaterThan(2);
    expect(at.connections()).toBeLessThan(8);
    expect(bench.gauges.states()[0]).toMatchObject({
      state: 'gone',
      problem: { kind: 'hangs-up' },
    });
    expect(comingAndGoing(bench)).toEqual(['live', 'gone']);
  });

  it('that hung up and now stays is live within a second, though its gauge says nothing yet', async () => {
    const at = await server((socket, nth) => (nth < 4 ? socket.end() : undefined));
    const bench = gaugesForTest();
    await bench.gauges.connect({ id: 'a', link: `tcp://127.0.0.1:${at.port}` });
    await until(() => at.connections() === 4);
    expect(await until(() => bench.gauges.states()[0]?.state === 'live')).toBeLessThan(1000);
    // What comes at once after opening may be the end of a line.
    await pause(100);
    for (const socket of at.sockets) if (!socket.destroyed) socket.write(latin1('0.5 mm\r\n'));
    await until(() => bench.readings.length === 1);
    expect(bench.readings[0]?.value).toBe(0.5);
  });

  it('that does not read what it is asked gets no heap of old questions once it does', async () => {
    const at = await server((socket) => socket.pause());
    const opened = await openTcp(
      { kind: 'tcp', host: '127.0.0.1', port: at.port },
      { bytes: () => undefined, closed: () => undefined },
    );
    if (!opened.ok) throw new Error(opened.problem.sentence);
    onTestFinished(() => opened.value.close());
    for (let i = 0; i < 2000; i += 1) {
      opened.value.write(new Uint8Array(50_000));
      if (i % 100 === 0) await pause(1);
    }
    let heard = 0;
    for (const socket of at.sockets) socket.on('data', (bytes) => (heard += bytes.length)).resume();
    await pause(500);
    // A hundred million bytes were asked; what the system itself holds for both ends is a few million.
    expect(heard).toBeGreaterThan(0);
    expect(heard).toBeLessThan(20_000_000);
  });

  it('whose name nobody knows is said not to answer', async () => {
    const bench = gaugesForTest();
    const connected = await bench.gauges.connect({ id: 'a', link: 'tcp://no-such-server.invalid:4001' });
    expect(connected).toMatchObject({ ok: false, problem: { kind: 'no-answer' } });
  });

  it('is reached by the sixth version of the protocol, written in brackets', async (context) => {
    const at = await server((socket) => socket.write(latin1('0.1 mm\r\n0.2 mm\r\n')), '::1').catch(() => undefined);
    if (at === undefined) {
      context.skip('this computer has no IPv6');
      return;
    }
    const bench = gaugesForTest();
    await bench.gauges.connect({ id: 'a', link: `tcp://[::1]:${at.port}` });
    await until(() => bench.readings.length === 2);
    expect(bench.readings.map(({ value }) => value)).toEqual([0.1, 0.2]);
  });
});
