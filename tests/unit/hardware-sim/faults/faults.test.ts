import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  during,
  faultSwitch,
  noFault,
  together,
  withFault,
  type Fault,
} from '../../../../hardware-sim/faults/fault.ts';
import { FAULT_NAMES, faultNamed, faultsFrom, UnknownFault } from '../../../../hardware-sim/faults/named.ts';
import {
  binaryNoise,
  doubledLines,
  endless,
  flood,
  frozen,
  gluedLines,
  halfLines,
  silence,
  splitLines,
} from '../../../../hardware-sim/faults/textFaults.ts';
import { wrongBaud, wrongParity } from '../../../../hardware-sim/faults/wireFaults.ts';
import type { Chunk } from '../../../../hardware-sim/lines/chunk.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const sent: readonly Chunk[] = Array.from({ length: 200 }, (_, index) => ({
  t_s: index / 100,
  bytes: Buffer.from(`+0.${String(index).padStart(4, '0')} mm\r\n`),
}));
const through = (fault: Fault): Chunk[] => [...withFault(sent, fault)];
const textOf = (chunks: readonly Chunk[]): string =>
  Buffer.concat(chunks.map((chunk) => chunk.bytes)).toString('latin1');
const linesOf = (chunks: readonly Chunk[]): string[] => textOf(chunks).split('\r\n').slice(0, -1);
const whole = linesOf(sent);

describe('faults of the text', () => {
  it('half lines lose bytes and leave the others whole', () => {
    const lines = linesOf(through(halfLines(seeded(1), 0.2)));
    const unhurt = lines.filter((line) => whole.includes(line));
    expect(unhurt.length).toBeGreaterThan(110);
    expect(unhurt.length).toBeLessThan(190);
    expect(textOf(through(halfLines(seeded(1), 0.2))).length).toBeLessThan(textOf(sent).length);
  });

  it('glued lines lose nothing but their ends', () => {
    const glued = through(gluedLines(seeded(2), 0.3));
    expect(linesOf(glued).length).toBeLessThan(170);
    expect(textOf(glued).replaceAll('\r\n', '')).toBe(textOf(sent).replaceAll('\r\n', ''));
  });

  it('doubled lines come twice, in their place', () => {
    const lines = linesOf(through(doubledLines(seeded(3), 0.3)));
    expect(lines.length).toBeGreaterThan(220);
    expect([...new Set(lines)]).toEqual(whole);
  });

  it('split lines carry every byte, some a little late', () => {
    const split = through(splitLines(seeded(4)));
    expect(split.length).toBeGreaterThan(260);
    expect(textOf(split)).toBe(textOf(sent));
  });

  it('a frozen display repeats itself and a silent one says nothing, in the old time', () => {
    expect(new Set(linesOf(through(frozen())))).toEqual(new Set([whole[0]]));
    expect(textOf(through(silence))).toBe('');
    expect(through(silence).map((chunk) => chunk.t_s)).toEqual(sent.map((chunk) => chunk.t_s));
  });

  it('a flood sends five thousand lines a second, in order of time', () => {
    const flooded = through(flood(5000));
    const seconds = (sent.at(-1)?.t_s ?? 0) - (sent[0]?.t_s ?? 0);
    expect(flooded.length / seconds).toBeCloseTo(5000, -2);
    expect(flooded.every((chunk, index) => chunk.t_s >= (flooded[index - 1]?.t_s ?? 0))).toBe(true);
  });

  it('an endless line never ends', () => {
    expect(textOf(through(endless))).not.toMatch(/[\r\n]/);
    expect(textOf(through(endless))).toBe(whole.join(''));
  });

  it('noise holds bytes that no text has', () => {
    expect(textOf(through(binaryNoise(seeded(5))))).toMatch(/[\u0080-\u00ff]/);
  });
});

describe('faults of the wire', () => {
  const heard = (text: string, fault: Fault): Uint8Array =>
    Buffer.concat(fault({ t_s: 0, bytes: Buffer.from(text) }).map((chunk) => chunk.bytes));

  it('is no fault where both ends agree', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 40 }), (bytes) => {
        const [chunk] = wrongBaud(9600, 9600)({ t_s: 0, bytes });
        expect([...(chunk?.bytes ?? [])]).toEqual([...bytes]);
      }),
    );
  });

  it('makes about two bytes of one at twice the rate, and never the line itself', () => {
    const garbage = heard('+0.1234 mm\r\n', wrongBaud(9600, 19_200));
    expect(garbage.length).toBeGreaterThan(14);
    expect(Buffer.from(garbage).toString('latin1')).not.toContain('0.1234');
  });

  it('hears 0x55 sent at half the rate as derived from its levels', () => {
    // On the wire 0 1 0 1 0 1 0 1 0 1; at twice the rate each level counts double: 0 01100110 0, whose last 0 starts
    // the next byte: 0 11001100 1. Lowest bit first that is 0x66 and 0x33.
    expect([...heard('U', wrongBaud(9600, 19_200))].slice(0, 2)).toEqual([0x66, 0x33]);
  });

  it('sets the eighth bit for parity', () => {
    // '0' = 0x30 has two ones, '1' = 0x31 three.
    expect([...heard('01', wrongParity('even'))]).toEqual([0x30, 0xb1]);
    expect([...heard('01', wrongParity('odd'))]).toEqual([0xb0, 0x31]);
  });
});

describe('putting faults together', () => {
  it('keeps each to its time', () => {
    const quiet = through(during(0.5, 1, silence));
    expect(linesOf(quiet)).toEqual([...whole.slice(0, 50), ...whole.slice(100)]);
  });

  it('applies one after the other', () => {
    expect(textOf(through(together([endless, frozen()])))).toBe((whole[0] ?? '').repeat(200));
  });

  it('can be exchanged on the way', () => {
    const { fault, set } = faultSwitch();
    const seen = sent.map((chunk, index) => {
      if (index === 100) set(silence);
      if (index === 150) set(noFault);
      return textOf([...fault(chunk)]);
    });
    expect(seen.filter((text) => text === '')).toHaveLength(50);
  });

  it('is the same for the same seed, and never lets time stand still', () => {
    for (const name of FAULT_NAMES) {
      expect(textOf(through(faultNamed(name, seeded(6))))).toBe(textOf(through(faultNamed(name, seeded(6)))));
      expect(through(faultNamed(name, seeded(6))).length).toBeGreaterThanOrEqual(sent.length);
    }
  });
});

describe('a list of faults', () => {
  it('names what, from when and until when', () => {
    const { fault, mishaps } = faultsFrom('silence@0.5-1, zero@20,unplug', seeded(7));
    expect(linesOf(through(fault))).toHaveLength(150);
    expect(mishaps).toEqual([
      { name: 'zero', at_s: 20 },
      { name: 'unplug', at_s: 0 },
    ]);
  });

  it('refuses what it does not know, by name', () => {
    expect(() => faultsFrom('half,gremlins@3', seeded(1))).toThrow(UnknownFault);
    expect(() => faultsFrom('half@x', seeded(1))).toThrow(/"half@x"/);
  });

  it('is no fault when empty', () => {
    expect(textOf(through(faultsFrom('', seeded(1)).fault))).toBe(textOf(sent));
  });
});
