import { describe, expect, it } from 'vitest';
import { cues, tonesOf } from '../../../../src/renderer/cues/cue.ts';
import { cueOf } from '../../../../src/renderer/cues/cueOf.ts';
import type { StationMeasured } from '../../../../src/shared/measuring/backlash/measured.ts';
import { mm, seconds } from '../../../../src/shared/basics/quantity.ts';
import { none } from '../../../../src/shared/basics/result.ts';
import { roundLimits } from '../../../support/roundAxle.ts';

/** When each tone begins and how long it lasts, to the hundredth of a second: what is left for ears that miss pitch. */
const rhythm = (cue: (typeof cues)[number]): string =>
  tonesOf[cue].map((tone) => `${tone.at.toFixed(2)}+${tone.for.toFixed(2)}`).join(' ');

describe('the five sounds', () => {
  it('differ in rhythm alone, and in pitch', () => {
    expect(new Set(cues.map(rhythm)).size).toBe(cues.length);
    expect(new Set(cues.map((cue) => tonesOf[cue].map(({ pitch }) => pitch).join(' '))).size).toBe(cues.length);
  });

  it('are short, and their tones do not run into each other', () => {
    for (const cue of cues) {
      const tones = tonesOf[cue];
      expect((tones.at(-1)?.at ?? 0) + (tones.at(-1)?.for ?? 0)).toBeLessThanOrEqual(0.7);
      for (const [index, tone] of tones.slice(1).entries()) {
        const before = tones[index];
        expect(tone.at).toBeGreaterThanOrEqual((before?.at ?? 0) + (before?.for ?? 0));
      }
    }
  });
});

const station = (value_mm: number): StationMeasured => ({
  value: mm(value_mm),
  rocks: 4,
  sd: mm(0.001),
  u: mm(0.001),
  U95: mm(0.003),
  flags: [],
  parts: [],
  from_t: seconds(0),
  to_t: seconds(3),
});
const done = (value_mm: number) =>
  ({ kind: 'station-done', station: 3, t: seconds(3), measured: station(value_mm) }) as const;

describe('which cue tells what was found', () => {
  const sheet = roundLimits.specSheet;

  it('says done inside the window and outside beyond it, with the number', () => {
    expect(cueOf(done(0.25), 'metric', sheet)).toMatchObject({
      cue: 'done',
      words: 'Station 3: 0.250 mm',
      shape: 'within',
    });
    expect(cueOf(done(0.331), 'metric', sheet)).toMatchObject({
      cue: 'outside',
      words: 'Station 3: 0.331 mm, 0.031 mm above',
    });
  });

  it('calls nothing outside without a limit', () => {
    expect(cueOf(done(0.331), 'metric', undefined)).toMatchObject({ cue: 'done', shape: 'recorded' });
  });

  it('says why a station was refused', () => {
    const measured = { ...station(0), value: none('drift' as const) };
    const refused = { kind: 'station-refused', station: 2, t: seconds(3), reason: 'drift', measured } as const;
    expect(cueOf(refused, 'metric', sheet)).toMatchObject({
      cue: 'refused',
      words: expect.stringContaining('moved together'),
    });
  });

  it('says aloud which station is taken back, for the gear has to be turned back as well', () => {
    const back = cueOf({ kind: 'taken-anew', station: 2, t: seconds(1) }, 'metric', undefined);
    expect(back).toMatchObject({ words: 'Back to station 2', spoken: 'Back to station 2' });
  });

  it('ticks for a rest and counts a rock', () => {
    const rest = { kind: 'rest-found', station: 1, t: seconds(1), side: 'low', level: mm(1), readings: 9 } as const;
    const rock = { kind: 'rock-counted', station: 1, t: seconds(2), rocks: 2, value: mm(0.2), mean: mm(0.2) } as const;
    expect(cueOf(rest, 'metric', sheet)).toMatchObject({ cue: 'rest' });
    expect(cueOf(rock, 'inch', sheet)).toMatchObject({ cue: 'rock', words: 'Rock 2, 0.0079 in' });
  });
});
