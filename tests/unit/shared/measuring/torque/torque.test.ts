import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { torqueGauge } from '../../../../../hardware-sim/gauges/torqueGauge.ts';
import { moments } from '../../../../../hardware-sim/hands/motion.ts';
import { dragTruth } from '../../../../../hardware-sim/hands/turnTruth.ts';
import { turningShaft } from '../../../../../hardware-sim/hands/turning.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { armShare } from '../../../../../src/shared/measuring/torque/pullScale.ts';
import type { StreamItem } from '../../../../../src/shared/measuring/reading.ts';
import {
  finishTorque,
  pullScale,
  startTorque,
  stepTorque,
  type TorqueEvent,
  type TorqueMeasured,
  torqueSoFar,
} from '../../../../../src/shared/measuring/torque/torque.ts';
import { mm, newtonMetres, radians, seconds } from '../../../../../src/shared/basics/quantity.ts';

const resolution = newtonMetres(0.01);
const numberOf = (value: unknown): number => (typeof value === 'number' ? value : Number.NaN);

interface Shaft {
  readonly drag?: (angle: number) => number;
  readonly breakaway?: number;
  readonly turns?: number;
  /** Turns a second. */
  readonly speed?: (t: number) => number;
  readonly withAngle?: boolean;
  readonly marks?: boolean;
  readonly rest_s?: number;
  readonly from_s?: number;
}

/** Rest, breakaway, turns, letting go, rest; at 50 readings a second. */
function shaft(made: Shaft): StreamItem[] {
  const { drag = () => 2, breakaway = 3, turns = 4, speed = () => 0.5, rest_s = 1, from_s = 0 } = made;
  const items: StreamItem[] = [];
  let [t, angle] = [from_s, 0];
  const push = (torque: number) => {
    const value = Math.round(torque / resolution) * resolution;
    items.push({ t: seconds(t), value, ...(made.withAngle === true ? { angle: radians(angle % (2 * Math.PI)) } : {}) });
    t += 0.02;
  };
  for (let i = 0; i < rest_s * 50; i += 1) push(0);
  for (let i = 1; i <= 15; i += 1) push((breakaway * i) / 15);
  const start = t;
  let marked = 0;
  while (angle < 2 * Math.PI * turns) {
    if (made.marks === true && angle >= 2 * Math.PI * (marked + 0.3)) {
      items.push({ t: seconds(t), pedal: 'next' });
      marked += 1;
    }
    push(drag(angle) + (breakaway - drag(0)) * Math.exp(-(t - start) / 0.03));
    angle += 2 * Math.PI * speed(t - start) * 0.02;
  }
  for (let i = 4; i >= 1; i -= 1) push((drag(angle) * i) / 5);
  for (let i = 0; i < rest_s * 50; i += 1) push(0);
  return items;
}

function measure(items: readonly StreamItem[]): TorqueMeasured {
  const capture = startTorque({ resolution });
  for (const item of items) stepTorque(capture, item);
  return finishTorque(capture);
}

const rippled = (angle: number) => 2 + 0.3 * Math.cos(angle - 1);

describe('a shaft turned by hand', () => {
  it('keeps breakaway apart from running torque', () => {
    const found = measure(shaft({}));
    expect(found.breakaway).toBeCloseTo(3, 9);
    expect(found.running).toBeCloseTo(2, 3);
    expect(numberOf(found.ripple)).toBeLessThan(0.02);
    expect(found).toMatchObject({ average: 'time', turns: 0, flags: [] });
    expect(found.parts.map(({ name }) => name)).toEqual(['resolution', 'zero', 'part of a turn', 'uneven turning']);
  });

  it('is averaged over whole turns of the angle, however unevenly the hand goes round', () => {
    // The hand lingers where the shaft turns hard: a time average reads high, the work of a turn does not.
    const uneven = (t: number) => 0.5 + 0.3 * Math.sin(Math.PI * t);
    const found = measure(shaft({ drag: rippled, turns: 4.4, speed: uneven, withAngle: true }));
    expect(found).toMatchObject({ average: 'whole-turns', turns: 4 });
    expect(found.running).toBeCloseTo(2, 2);
    expect(found.ripple).toBeCloseTo(0.6, 1.5);
  });

  it('is averaged between the presses where turns are marked', () => {
    const found = measure(shaft({ drag: rippled, turns: 4.7, marks: true }));
    expect(found).toMatchObject({ average: 'whole-turns', turns: 4 });
    expect(found.running).toBeCloseTo(2, 2);
  });

  it('is averaged over whole periods where they prove themselves', () => {
    const found = measure(shaft({ drag: rippled, turns: 4.4 }));
    expect(found).toMatchObject({ average: 'whole-turns' });
    expect(found.turns).toBeGreaterThanOrEqual(3);
    expect(found.running).toBeCloseTo(2, 1.5);
  });

  it('is averaged over the time, and called so, where nothing repeats', () => {
    expect(measure(shaft({ turns: 5 })).average).toBe('time');
    expect(measure(shaft({ drag: rippled, turns: 1.6 })).average).not.toBe('whole-turns');
  });

  it('does not take the tremor of a hand for turns', () => {
    const tremor = (angle: number) => 2 + 0.1 * Math.sin(12 * angle);
    expect(measure(shaft({ drag: tremor, turns: 5 })).average).toBe('time');
  });

  it('shows the bearings seating', () => {
    const found = measure(shaft({ drag: (angle) => 2 + 0.4 * Math.exp(-angle / 12), turns: 6.2, withAngle: true }));
    expect(numberOf(found.drift)).toBeLessThan(-0.2);
    expect(found.flags).toContain('seating');
    expect(measure(shaft({ turns: 6.2, withAngle: true })).drift).toBeCloseTo(0, 2);
  });

  it('may be pulled several times; the hardest start counts', () => {
    const first = shaft({ breakaway: 3.4, turns: 2 });
    const second = shaft({ breakaway: 2.6, turns: 2, from_s: 10 });
    const found = measure([...first, ...second]);
    expect(found.breakaway).toBeCloseTo(3.4, 9);
    expect(found.running).toBeCloseTo(2, 2);
  });

  it('that already turned when measuring began has no breakaway', () => {
    const found = measure(shaft({}).slice(90));
    expect(found.breakaway).toEqual({ none: 'start-not-seen' });
    expect(found.running).toBeCloseTo(2, 2);
    expect(found.flags).toContain('start-not-seen');
    // Neither a start nor an end: a gauge that hangs off zero reads just the same.
    expect(measure(shaft({ rest_s: 0 }).slice(40, -4)).running).toEqual({ none: 'not-turned' });
  });

  it('does not care which way it is turned', () => {
    const items = shaft({ drag: rippled });
    const turned = items.map((item) => ('value' in item ? { ...item, value: -item.value } : item));
    expect(measure(turned)).toEqual(measure(items));
  });

  it('gives no number for a touch, or for nothing', () => {
    expect(measure([]).running).toEqual({ none: 'nothing-measured' });
    expect(measure(shaft({ turns: 0.1 })).running).toEqual({ none: 'too-short' });
    expect(measure(shaft({ turns: 0.1 })).breakaway).toEqual({ none: 'too-short' });
  });

  it('says when the gauge is too coarse or the torque unsteady', () => {
    expect(measure(shaft({ drag: () => 0.15, breakaway: 0.2 })).flags).toContain('coarse');
    expect(measure(shaft({ drag: (angle) => 2 + 0.8 * Math.cos(angle) })).flags).toContain('not-steady');
  });

  it('leaves a wild reading in the turning out', () => {
    const items = shaft({}).map((item, i) => (i === 200 ? { ...item, value: 60 } : item));
    expect(measure(items).running).toBeCloseTo(2, 3);
    expect(measure(items).flags).toContain('spike');
  });

  it('gives cues, a live figure, and starts afresh on the pedal', () => {
    const capture = startTorque({ resolution });
    const events: TorqueEvent[] = [];
    const items = shaft({ withAngle: true, turns: 2.2 });
    for (const [index, item] of items.entries()) {
      events.push(...stepTorque(capture, item));
      if (index === 200)
        expect(torqueSoFar(capture)).toMatchObject({ pulling: true, running: expect.closeTo(2, 2) as number });
    }
    expect(events.map(({ kind }) => kind)).toEqual(['pulling', 'turn', 'turn', 'let-go']);
    expect(stepTorque(capture, { t: seconds(99), pedal: 'again' })).toMatchObject([{ kind: 'again' }]);
    expect(finishTorque(capture).running).toEqual({ none: 'nothing-measured' });
  });

  it('may be asked for while it goes on', () => {
    const [asked, alone] = [startTorque({ resolution }), startTorque({ resolution })];
    for (const [index, item] of shaft({ drag: rippled, withAngle: true }).entries()) {
      stepTorque(asked, item);
      stepTorque(alone, item);
      if (index % 40 === 0) finishTorque(asked);
    }
    expect(asked).toEqual(alone);
  });

  it('scales with the torque', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        (level, phase) => {
          const drag = (angle: number) => level * (1 + 0.1 * Math.cos(angle - phase));
          const found = measure(shaft({ drag, breakaway: 1.5 * level, turns: 3.2, withAngle: true }));
          expect(Math.abs(numberOf(found.running) - level)).toBeLessThan(0.01 + 0.005 * level);
          expect(Math.abs(numberOf(found.breakaway) - 1.5 * level)).toBeLessThan(0.01);
        },
      ),
      { numRuns: 25 },
    );
  });
});

describe('simulated hands and torque gauges', () => {
  const runs = Array.from({ length: 120 }, (_, seed) => {
    const random = seeded(2000 + seed);
    const mean = random.uniform(0.6, 4);
    const [ripple, lobes, phase] = [random.uniform(0, 0.15) * mean, random.next() < 0.5 ? 1 : 2, random.uniform(0, 6)];
    const setup = {
      dragAt: (angle: number) => mean + ripple * Math.cos(lobes * angle - phase),
      breakawayFactor: random.uniform(1.05, 2),
      start_rad: random.uniform(0, 6),
      turns: random.uniform(1.3, 6),
      speed_rad_s: random.uniform(2, 7),
      unevenness: random.uniform(0, 0.08),
      rest_s: random.uniform(0.5, 1.5),
    };
    const step = random.next() < 0.5 ? 0.01 : 0.02;
    const traits = {
      unit: 'N.m' as const,
      resolution: step,
      noise_Nm: random.uniform(0, 1) * step,
      error_percent: random.uniform(-4, 4),
      statedError_percent: 4,
      range_Nm: 10,
      sign: random.next() < 0.5 ? (1 as const) : (-1 as const),
    };
    const gauge = torqueGauge(traits, random);
    const capture = startTorque({ resolution: newtonMetres(step), gaugeU_share: 0.04 / Math.sqrt(3) });
    const withAngle = seed % 2 === 0;
    for (const { t_s, value, angle_rad = 0 } of moments(turningShaft(setup, random), random.uniform(10, 100))) {
      const angle = withAngle ? { angle: radians(angle_rad % (2 * Math.PI)) } : {};
      stepTorque(capture, { t: seconds(t_s), value: gauge.read(value).value, ...angle });
    }
    return { found: finishTorque(capture), truth: dragTruth(setup), withAngle };
  });

  it('keep the truth within U95 in nine of ten', () => {
    const covered = runs.filter(
      ({ found, truth }) => Math.abs(numberOf(found.running) - truth.running_Nm) <= found.U95,
    );
    expect(covered.length).toBeGreaterThanOrEqual(0.9 * runs.length);
    const started = runs.filter(
      ({ found, truth }) => Math.abs(numberOf(found.breakaway) - truth.breakaway_Nm) <= found.breakawayU95,
    );
    expect(started.length).toBeGreaterThanOrEqual(0.9 * runs.length);
  });

  it('are averaged over whole turns whenever the angle is there', () => {
    for (const { found, withAngle } of runs) if (withAngle) expect(found.average).toBe('whole-turns');
  });
});

describe('a pull scale', () => {
  it('turns force and arm into torque, and the arm into doubt', () => {
    expect(pullScale(20, { length: mm(50), u: mm(1) })).toBeCloseTo(1, 12);
    expect(armShare({ length: mm(50), u: mm(1) })).toBeCloseTo(0.02, 12);
    const capture = startTorque({ resolution, armU_share: 0.02 });
    for (const item of shaft({})) stepTorque(capture, item);
    expect(finishTorque(capture).parts).toContainEqual({ name: 'arm', u: expect.closeTo(0.04, 3) as number });
  });
});
