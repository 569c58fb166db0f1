import { describe, expect, it, onTestFinished } from 'vitest';
import { randomSession, type Session } from '../../../hardware-sim/hands/stations.ts';
import { seeded } from '../../../hardware-sim/seeded.ts';
import type { BacklashResult, CaptureSettings, Stretch } from '../../../src/shared/job/records/measurement.ts';
import { isNone } from '../../../src/shared/basics/result.ts';
import { benchInNewFolder, valueOf } from '../../support/bench/open.ts';
import { journaled, type Watched } from '../../support/records/journaled.ts';
import { sessionLines } from '../../support/streams.ts';

/** A hand that stops at six stations, read finely enough that each has its number. */
function session(): Session {
  for (let seed = 300; ; seed += 1) {
    const found = randomSession(seeded(seed), { stations: [6, 6] });
    const { gauge, rate_Hz, presses } = found;
    if (gauge.unit === 'mm' && gauge.resolution <= 0.002 && rate_Hz > 20 && presses.length === 0) return found;
  }
}

const settings: CaptureSettings = {
  kind: 'backlash',
  basis: { direction: 'along-rotation', at: 'heel' },
  nextBy: 'itself',
};

async function opened() {
  const hand = session();
  const lines = sessionLines(hand) as readonly Watched[];
  const { folder, gauge, stretch } = await journaled(lines, 'indicator');
  const service = benchInNewFolder(undefined, folder);
  onTestFinished(async () => void (await service.close()));
  const { from } = stretch;
  /** The journal row at a share of the rocking at a station (from 0). */
  const rowAt = (station: number, share: number): number => {
    const rows = hand.seen.flatMap((moment, index) => (moment.station === station ? [from + index] : []));
    return rows[Math.floor(share * (rows.length - 1))] ?? 0;
  };
  const measure = async (of: Stretch): Promise<BacklashResult['stations']> => {
    const { result } = valueOf(await service.answers['measurements.keep-loose']({ stretch: of, settings }));
    return result.kind === 'backlash' ? result.stations : [];
  };
  return { service, gauge, stretch, rowAt, measure };
}

const values = (stations: BacklashResult['stations']): readonly number[] =>
  stations.map(({ value_mm }) => (isNone(value_mm) ? Number.NaN : value_mm));

describe('a backlash that was broken off', () => {
  it('keeps the stations that were done, and takes the one at work anew, whatever the gauge showed in between', async () => {
    const { stretch, rowAt, measure } = await opened();
    const whole = values(await measure(stretch));
    expect(whole).toHaveLength(6);
    // Away early in the third station, back while the fourth is still being rocked: its stem is lifted, and it
    // goes on at the fifth tooth.
    const breaks = [{ from: rowAt(2, 0.25), to: rowAt(4, 0) - 1 }];
    const parts = values(await measure({ ...stretch, breaks }));
    expect(parts).toHaveLength(4);
    for (const [index, station] of [0, 1, 4, 5].entries()) expect(parts[index]).toBeCloseTo(whole[station] ?? 0, 2);
    // Without the break the half station is a station too, by whatever name.
    expect(whole).not.toEqual(parts);
  });

  it('makes no rock of rests on both sides of a break', async () => {
    const { service, stretch, rowAt, measure } = await opened();
    const one = { ...stretch, to: rowAt(0, 1) };
    expect(values(await measure(one))).toHaveLength(1);
    const breaks = [0.15, 0.3, 0.45, 0.6, 0.75, 0.9].map((share) => ({ from: rowAt(0, share), to: rowAt(0, share) }));
    const cut = await service.answers['measurements.keep-loose']({ stretch: { ...one, breaks }, settings });
    expect(cut.ok ? cut.value.result : cut.problem).toMatchObject({ kind: 'nothing-measured' });
  });
});

describe('a measurement under way', () => {
  const which = { assembly: 'trial-2', check: 'backlash' } as const;

  it('is found again with its stations, those of a broken part too, and is gone when it is forgotten', async () => {
    const { service, stretch, rowAt, measure } = await opened();
    const { answers } = service;
    const find = async () => valueOf(await answers['unfinished.find'](which)).found;
    expect(await find()).toBeUndefined();
    const whole = values(await measure(stretch));
    const begun = { ...stretch, to: rowAt(2, 0.2), breaks: [{ from: rowAt(1, 0.1), to: rowAt(2, 0) - 1 }] };
    valueOf(await answers['unfinished.note']({ ...which, stretch: begun, settings }));
    expect((await find())?.stations).toMatchObject([{ value: expect.closeTo(whole[0] ?? 0, 2) }]);
    valueOf(await answers['unfinished.note']({ ...which, stretch: { ...stretch, to: rowAt(3, 0.2) }, settings }));
    const found = await find();
    expect(found?.stretch.to).toBe(rowAt(3, 0.2));
    expect(found?.stations.map(({ value }) => value)).toEqual(whole.slice(0, 3));
    expect(valueOf(await answers['unfinished.find']({ ...which, check: 'ring-gear-runout' })).found).toBeUndefined();
    valueOf(await answers['unfinished.forget'](which));
    expect(await find()).toBeUndefined();
  });

  it('is nothing to go on from where its rows or its gauge are not there', async () => {
    const { service, stretch } = await opened();
    const { answers } = service;
    for (const wrong of [{ to: stretch.to + 100_000 }, { gauge: 'another' }]) {
      valueOf(await answers['unfinished.note']({ ...which, stretch: { ...stretch, ...wrong }, settings }));
      expect(valueOf(await answers['unfinished.find'](which)).found).toBeUndefined();
    }
  });
});
