import { describe, expect, it } from 'vitest';
import { moments, type Moment } from '../../../../hardware-sim/hands/motion.ts';
import { dragTruth, runoutTruth } from '../../../../hardware-sim/hands/turnTruth.ts';
import {
  turning,
  turningByStations,
  turningShaft,
  type DragTurn,
  type SurfaceTurn,
} from '../../../../hardware-sim/hands/turning.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';

const surfaceAt = (angle_rad: number): number => 0.03 * Math.cos(angle_rad - 1) + 0.008 * Math.cos(2 * angle_rad);
const SURFACE: SurfaceTurn = { surfaceAt, preload_mm: 3, start_rad: 0.7, speed_rad_s: 2, unevenness: 0.6, rest_s: 0.4 };
const doing = (seen: readonly Moment[], what: Moment['doing']): Moment[] =>
  seen.filter((moment) => moment.doing === what);
const spanOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

describe('turning a surface', () => {
  const seen = [...moments(turning(SURFACE, 1.05, seeded(3)), 500)];

  it('shows the whole runout, whatever the start and the hand', () => {
    expect(spanOf(seen.map((moment) => moment.value))).toBeCloseTo(runoutTruth(surfaceAt).tir_mm, 4);
  });

  it('turns unevenly but never back, without a jump', () => {
    const steps = seen.slice(1).map((moment, index) => (moment.angle_rad ?? 0) - (seen[index]?.angle_rad ?? 0));
    expect(Math.min(...steps)).toBeGreaterThanOrEqual(-1e-12);
    const moving = steps.filter((step) => step > 1e-6);
    expect(Math.max(...moving) / Math.min(...moving)).toBeGreaterThan(2);
    expect(Math.max(...steps)).toBeLessThan((2 * 1.61) / 500);
  });

  it('reads the surface at the angle it has turned to', () => {
    for (const { value, angle_rad } of seen) expect(value).toBeCloseTo(3 + surfaceAt(angle_rad ?? 0), 12);
  });
});

describe('turning by stations', () => {
  it('pauses at equal angles and once more at the first', () => {
    const pauses = doing([...moments(turningByStations(SURFACE, 8, seeded(4)), 200)], 'pausing');
    const places = [...new Set(pauses.map((moment) => (moment.angle_rad ?? 0).toFixed(6)))].map(Number);
    expect(places).toHaveLength(9);
    for (const [station, place] of places.entries()) expect(place).toBeCloseTo(0.7 + (station * Math.PI) / 4, 5);
    expect(pauses.at(-1)?.station).toBe(0);
    expect(pauses.at(-1)?.value).toBeCloseTo(pauses[0]?.value ?? 0, 9);
  });
});

describe('the truth of a turn', () => {
  it('has the first harmonic it was made with', () => {
    const { first } = runoutTruth(surfaceAt);
    expect(first.amplitude_mm).toBeCloseTo(0.03, 9);
    expect(first.highSpot_rad).toBeCloseTo(1, 9);
  });
});

describe('turning a shaft', () => {
  const dragAt = (angle_rad: number): number => 1.8 + 0.15 * Math.sin(angle_rad);
  const SHAFT: DragTurn = {
    dragAt,
    breakawayFactor: 1.5,
    start_rad: 0.3,
    turns: 3,
    speed_rad_s: 6,
    unevenness: 0.05,
    rest_s: 0.5,
  };
  const seen = [...moments(turningShaft(SHAFT, seeded(9)), 1000)];
  const truth = dragTruth(SHAFT);

  it('breaks away above, and settles to, what keeps it turning', () => {
    expect(Math.max(...seen.map((moment) => moment.value))).toBeCloseTo(truth.breakaway_Nm, 2);
    const steady = doing(seen, 'turning').slice(300);
    const mean = steady.reduce((sum, moment) => sum + moment.value, 0) / steady.length;
    expect(Math.abs(mean - truth.running_Nm)).toBeLessThan(0.02);
  });

  it('makes whole turns and ends at rest', () => {
    expect(doing(seen, 'turning').at(-1)?.angle_rad).toBeCloseTo(0.3 + 6 * Math.PI, 1);
    expect(seen.at(-1)?.value).toBe(0);
    expect(seen[0]?.value).toBe(0);
  });

  it('has the mean and the ripple of its drag', () => {
    expect(truth.running_Nm).toBeCloseTo(1.8, 9);
    expect(truth.ripple_Nm).toBeCloseTo(0.3, 4);
    expect(truth.breakaway_Nm).toBeCloseTo(1.5 * dragAt(0.3), 12);
  });
});
