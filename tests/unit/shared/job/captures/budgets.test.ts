import { describe, expect, it } from 'vitest';
import { backlashWorlds } from '../../../../../hardware-sim/worlds/backlash/worlds.ts';
import { runoutWorlds } from '../../../../../hardware-sim/worlds/runout/worlds.ts';
import { torqueWorlds } from '../../../../../hardware-sim/worlds/torque/worlds.ts';
import type { Scene, World } from '../../../../../hardware-sim/worlds/world.ts';
import { degrees, seconds } from '../../../../../src/shared/basics/quantity.ts';
import { isNone, type OrNone } from '../../../../../src/shared/basics/result.ts';
import { startCapture } from '../../../../../src/shared/job/captures/capture.ts';
import { type Gauge, gaugeSchema } from '../../../../../src/shared/job/records/gauge.ts';
import {
  type CaptureSettings,
  type MeasuredResult,
  resultSchema,
} from '../../../../../src/shared/job/records/measurement.ts';
import { t95, tQuantile } from '../../../../../src/shared/basics/studentT.ts';

const along = { direction: 'along-rotation', at: 'heel' } as const;
const backlash: CaptureSettings = { kind: 'backlash', basis: along, nextBy: 'itself' };
const aslant: CaptureSettings = {
  ...backlash,
  stem: { tip: 'follows-point', off_deg: 20, offWithin_deg: 3, radius_mm: 90, radiusWithin_mm: 1 },
};
const runout: CaptureSettings = { kind: 'runout', mode: 'continuous' };
const torque: CaptureSettings = { kind: 'torque', basis: { basis: 'running', seal: 'out', bearings: 'new' } };

const gaugeOf = ({ told }: Scene, unit: 'mm' | 'N.m'): Gauge =>
  gaugeSchema.parse({
    id: 'g',
    label: 'Gauge',
    kind: unit === 'mm' ? 'indicator' : 'torque',
    resolution: { value: told.resolution, unit },
    ...(unit === 'mm'
      ? { statedError: { value: 0.004, unit }, hysteresis: { value: 0.002, unit } }
      : { statedError_percent: 2 }),
  });

/** A scene measured as the bench records it, and read back from its file. */
function recorded(settings: CaptureSettings, scene: Scene): MeasuredResult {
  const capture = startCapture(settings, gaugeOf(scene, settings.kind === 'torque' ? 'N.m' : 'mm'));
  if (!capture.ok) throw new Error(capture.problem.sentence);
  for (const sample of scene.samples) {
    const t = seconds(sample.t);
    if ('pedal' in sample) capture.value.step({ t, pedal: sample.pedal });
    else {
      const { value, angle_deg } = sample;
      capture.value.step({ t, value, ...(angle_deg === undefined ? {} : { angle: degrees(angle_deg) }) });
    }
  }
  return resultSchema.parse(JSON.parse(JSON.stringify(capture.value.finish())));
}

interface Budget {
  readonly u?: OrNone<number>;
  readonly U95: OrNone<number>;
  readonly parts: readonly { readonly name: string; readonly u: number; readonly nu?: number | undefined }[];
}

/** Every uncertainty a result tells, with the parts it says it is made of. */
function budgetsOf(result: MeasuredResult): readonly Budget[] {
  switch (result.kind) {
    case 'backlash':
      return result.stations.map(({ u_mm, U95_mm, parts }) => ({ u: u_mm, U95: U95_mm, parts }));
    case 'runout':
      return [{ u: result.u_mm, U95: result.U95_mm, parts: result.parts }];
    case 'torque':
      return [
        { u: result.u_Nm, U95: result.U95_Nm, parts: result.parts },
        { U95: result.breakawayU95_Nm, parts: result.breakawayParts ?? [] },
      ];
    default:
      return [];
  }
}

/** Added up as the page on uncertainty says, by nothing of the bench but Student's t: squares, Welch–Satterthwaite cut down. */
function addedUp(parts: Budget['parts']): { readonly u: number; readonly U95: number; readonly nu: number } {
  const u = Math.sqrt(parts.reduce((sum, part) => sum + part.u ** 2, 0));
  const fourths = parts.reduce((sum, part) => sum + (part.nu === undefined ? 0 : part.u ** 4 / part.nu), 0);
  const nu = fourths === 0 ? Infinity : Math.max(1, Math.floor((u ** 4 / fourths) * (1 + 1e-9)));
  return { u, U95: t95(nu) * u, nu };
}

/** What shifts every station of one gear alike, as the page on measuring backlash says. */
const everyStations: ReadonlySet<string> = new Set([
  'gauge',
  'hysteresis',
  'hysteresis, not stated',
  'short of the stop',
  'creep',
  'stem angle',
  'stem radius',
]);

function meanPart(stations: readonly Budget['parts'][], name: string): Budget['parts'][number] {
  const found = stations.flatMap((parts) => parts.filter((part) => part.name === name));
  const degrees = found.flatMap(({ nu }) => (nu === undefined ? [] : [nu]));
  const u = found.reduce((sum, part) => sum + part.u, 0) / stations.length;
  return { name, u, ...(degrees.length === 0 ? {} : { nu: Math.min(...degrees) }) };
}

/** Recorded backlashes of two worlds, with the stations that have a number. */
function felt() {
  const worlds = backlashWorlds.filter(({ name }) => name === 'home' || name === 'hands that scatter');
  return worlds.flatMap((world) =>
    Array.from({ length: 6 }, (_, seed) => {
      const result = recorded(seed % 2 === 0 ? backlash : aslant, world.make(seed));
      if (result.kind !== 'backlash') throw new Error('no backlash');
      const stations = result.stations.flatMap(({ value_mm, parts }) =>
        isNone(value_mm) ? [] : [{ value: value_mm, parts }],
      );
      return { result, stations };
    }),
  );
}

const homes: readonly (readonly [string, World | undefined, CaptureSettings])[] = [
  ['backlash', backlashWorlds[0], backlash],
  ['backlash read by a stem that stood aslant', backlashWorlds[0], aslant],
  ['backlash where hands scatter', backlashWorlds.find(({ name }) => name.includes('scatter')), backlash],
  ['runout', runoutWorlds[0], runout],
  ['runout in wandering noise', runoutWorlds.find(({ name }) => name.includes('wander')), runout],
  ['torque', torqueWorlds[0], torque],
  ['torque of a gauge whose zero drifts', torqueWorlds.find(({ name }) => name.includes('drifts')), torque],
  ['torque of part of a turn', torqueWorlds.find(({ name }) => name.includes('part of a turn')), torque],
  ['torque of bearings that seat', torqueWorlds.find(({ name }) => name.includes('last turn')), torque],
];

describe('every recorded uncertainty', () => {
  it.each(homes)('is what its recorded parts add up to: %s', (_, world, settings) => {
    if (world === undefined) throw new Error('no such world');
    const results = Array.from({ length: 8 }, (_unused, seed) => recorded(settings, world.make(seed)));
    const budgets = results.flatMap(budgetsOf).filter(({ U95 }) => !isNone(U95) && U95 > 0);
    expect(budgets.length).toBeGreaterThan(4);
    for (const { u, U95, parts } of budgets) {
      const sum = addedUp(parts);
      if (u !== undefined) expect(u).toBeCloseTo(sum.u, 12);
      expect(U95).toBeCloseTo(sum.U95, 9);
    }
    // Where repeats are among them their degrees of freedom count.
    if (settings.kind === 'backlash') {
      expect(budgets.every(({ parts }) => parts.some(({ nu }) => nu !== undefined))).toBe(true);
    }
  });

  it('of a mean keeps whole what every station shares and shares out the rest', () => {
    for (const { stations, result } of felt()) {
      const parts = stations.map((station) => station.parts);
      const names = [...new Set(parts.flat().map(({ name }) => name))];
      const shared = names.filter((name) => everyStations.has(name)).map((name) => meanPart(parts, name));
      const own = parts.flat().filter(({ name }) => !everyStations.has(name));
      const wanted = addedUp([...shared, ...own.map((part) => ({ ...part, u: part.u / stations.length }))]);
      expect(result.meanU95_mm).toBeCloseTo(wanted.U95, 9);
    }
  });

  it('of a variation is that of its two ends, for every pair of stations at once', () => {
    for (const { stations, result } of felt().filter((one) => one.stations.length > 1)) {
      const sorted = stations.toSorted((a, b) => a.value - b.value);
      const ends = [...(sorted[0]?.parts ?? []), ...(sorted.at(-1)?.parts ?? [])];
      const { u, nu } = addedUp(ends.filter(({ name }) => !name.startsWith('hysteresis') && !name.startsWith('stem')));
      const pairs = (stations.length * (stations.length - 1)) / 2;
      expect(result.variationU95_mm).toBeCloseTo(tQuantile(1 - 0.025 / pairs, Math.min(nu, 1e6)) * u, 9);
    }
  });

  it('belongs to a station with its number, from 1 on', () => {
    const home = backlashWorlds[0];
    if (home === undefined) throw new Error('no such world');
    const result = recorded(backlash, home.make(3));
    if (result.kind !== 'backlash') throw new Error('no backlash');
    expect(result.stations.map(({ number }) => number)).toEqual(result.stations.map((_, index) => index + 1));
  });

  it('is scaled as its station is, where the stem stood aslant', () => {
    const home = backlashWorlds[0];
    if (home === undefined) throw new Error('no such world');
    const [straight, freed] = [recorded(backlash, home.make(2)), recorded(aslant, home.make(2))].map(budgetsOf);
    // A point followed at 20° reads low by its cosine.
    const factor = 1 / Math.cos(Math.PI / 9);
    for (const name of ['resolution', 'gauge', 'hysteresis', 'rocks']) {
      const [own, scaled] = [straight, freed].map((all) => all?.[0]?.parts.find((part) => part.name === name)?.u);
      expect(scaled).toBeCloseTo((own ?? Number.NaN) * factor, 12);
    }
    expect(freed?.[0]?.parts.map(({ name }) => name)).toContain('stem angle');
  });

  it('of a gauge is the same in backlash and in runout, for both are differences of two readings', () => {
    const [felt, turned] = [backlashWorlds[0], runoutWorlds[0]];
    if (felt === undefined || turned === undefined) throw new Error('no such world');
    const partOf = (budget: Budget | undefined, name: string) => budget?.parts.find((part) => part.name === name)?.u;
    const station = budgetsOf(recorded(backlash, felt.make(1)))[0];
    const turn = budgetsOf(recorded(runout, turned.make(1)))[0];
    for (const [name, u] of [
      ['gauge', (Math.SQRT2 * 0.004) / Math.sqrt(3)],
      ['hysteresis', 0.002 / Math.SQRT2],
    ] as const) {
      expect(partOf(station, name)).toBeCloseTo(u, 12);
      expect(partOf(turn, name)).toBeCloseTo(u, 12);
    }
  });
});
