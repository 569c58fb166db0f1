import { type Line, serveLine } from '../../hardware-sim/lines/line.ts';

/** Gauges that count: each number is sent once, so that a row that is lost, doubled or out of order is seen by its value. */
export interface StandGauges {
  readonly links: readonly string[];
  /** Pulls the cable of one of them for so long. */
  unplug(which: number, for_ms: number): Promise<void>;
  /** Lets one of them send bytes that no gauge should, between its lines. */
  babble(which: number, bytes: Uint8Array): Promise<void>;
  sent_bytes(): number;
  end(): Promise<void>;
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, ms));

/** @param rate_Hz lines a second of each gauge. */
export async function openStandGauges(count: number, rate_Hz: number): Promise<StandGauges> {
  const lines = await Promise.all(Array.from({ length: count }, () => serveLine()));
  const began = performance.now();
  const next = lines.map(() => 0);
  let bytes = 0;
  const send = (line: Line, which: number): void => {
    const due = Math.floor(((performance.now() - began) / 1000) * rate_Hz);
    let text = '';
    for (let n = next[which] ?? 0; n < due; n += 1) text += `${(n / 1000).toFixed(3)} mm\r\n`;
    next[which] = due;
    bytes += text.length;
    if (text !== '') void line.write(Buffer.from(text));
  };
  const timer = setInterval(() => lines.forEach(send), 20);
  return {
    links: lines.map(({ link }) => link),
    async unplug(which, for_ms) {
      await lines[which]?.unplug();
      await pause(for_ms);
      await lines[which]?.replug();
    },
    async babble(which, noise) {
      bytes += noise.length;
      // The line that was under way is spoilt too, and ended, so that the next one is read.
      await lines[which]?.write(Buffer.concat([noise, Buffer.from('\r\n')]));
    },
    sent_bytes: () => bytes,
    async end() {
      clearInterval(timer);
      await Promise.all(lines.map((line) => line.end()));
    },
  };
}
