import { describe, expect, it } from 'vitest';
import { hearing } from '../../../../hardware-sim/lines/hearing.ts';
import type { Line } from '../../../../hardware-sim/lines/line.ts';
import { asFastAsPossible, play, type Pace } from '../../../../hardware-sim/lines/play.ts';

/** A line that only writes down what it is given, and when by the given pace. */
function notebook(pace: Pace): Line & { readonly written: { at_s: number; text: string }[] } {
  const written: { at_s: number; text: string }[] = [];
  return {
    link: 'tcp://127.0.0.1:0',
    lost_bytes: 0,
    written,
    write: async (bytes) => void written.push({ at_s: pace.now_s(), text: Buffer.from(bytes).toString() }),
    onBytes: () => () => undefined,
    unplug: async () => undefined,
    replug: async () => undefined,
    end: async () => undefined,
  };
}

/** A clock that stands still unless somebody waits for it; each wait overshoots by `late_s`, as a busy machine does. */
function steppedPace(late_s = 0): Pace {
  let now_s = 0;
  return {
    now_s: () => now_s,
    until: async (t_s) => {
      now_s = Math.max(now_s, t_s + late_s);
    },
  };
}

const chunksAt = (...times_s: readonly number[]) =>
  times_s.map((t_s, index) => ({ t_s, bytes: Buffer.from(String(index)) }));

describe('playing to a line', () => {
  it('sends each chunk at its own time', async () => {
    const pace = steppedPace();
    const line = notebook(pace);
    expect(await play(chunksAt(0, 0.5, 2), line, pace)).toBe(3);
    expect(line.written).toEqual([
      { at_s: 0, text: '0' },
      { at_s: 0.5, text: '1' },
      { at_s: 2, text: '2' },
    ]);
  });

  it('is never early, and lateness does not add up', async () => {
    const pace = steppedPace(0.004);
    const line = notebook(pace);
    await play(chunksAt(...Array.from({ length: 1000 }, (_, index) => index / 100)), line, pace);
    const lates_s = line.written.map(({ at_s }, index) => at_s - index / 100);
    expect(Math.min(...lates_s)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...lates_s)).toBeLessThan(0.0041);
  });

  it('sends what is due together in one write', async () => {
    const pace = steppedPace();
    const line = notebook(pace);
    await play(chunksAt(0, 0, 0, 1), line, pace);
    expect(line.written.map(({ text }) => text)).toEqual(['012', '3']);
  });

  it('never piles up more than a line can carry', async () => {
    const line = notebook(asFastAsPossible());
    const big = Array.from({ length: 100 }, () => ({ t_s: 0, bytes: Buffer.alloc(1000, 'a') }));
    expect(await play(big, line, asFastAsPossible())).toBe(100_000);
    expect(Math.max(...line.written.map(({ text }) => text.length))).toBeLessThanOrEqual(5000);
  });

  it('reads no more than one chunk ahead, so that a live gauge can change its mind', async () => {
    const pace = steppedPace();
    const line = notebook(pace);
    const drawn: number[] = [];
    function* live() {
      for (const t_s of [0, 1, 2, 3]) {
        drawn.push(line.written.length);
        yield { t_s, bytes: Buffer.from('x') };
      }
    }
    await play(live(), line, pace);
    expect(drawn).toEqual([0, 0, 1, 2]);
  });

  it('stops when told to', async () => {
    const pace = steppedPace();
    const line = notebook(pace);
    const stop = new AbortController();
    function* endless() {
      for (let count = 0; ; count += 1) {
        if (count === 3) stop.abort();
        yield { t_s: count, bytes: Buffer.from('x') };
      }
    }
    expect(await play(endless(), line, pace, stop.signal)).toBe(3);
  });
});

describe('hearing', () => {
  it('tells all who listen, until they stop', () => {
    const { on, tell } = hearing();
    const heard: string[] = [];
    const stop = on((bytes) => heard.push(`one ${bytes.length}`));
    on((bytes) => heard.push(`two ${bytes.length}`));
    tell(new Uint8Array(3));
    stop();
    tell(new Uint8Array(4));
    expect(heard).toEqual(['one 3', 'two 3', 'two 4']);
  });
});
