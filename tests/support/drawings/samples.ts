import type { BarInput } from '../../../src/shared/presentation/drawing/bars.ts';
import type { TracePoint } from '../../../src/shared/presentation/drawing/decimate.ts';
import type { FlanksInput } from '../../../src/shared/presentation/drawing/flanksInput.ts';
import type { RingInput, RingStation } from '../../../src/shared/presentation/drawing/ringInput.ts';
import type { TraceInput } from '../../../src/shared/presentation/drawing/trace.ts';
import type { Mark } from '../../../src/shared/axle/mark/mark.ts';
import type { State } from '../../../src/shared/presentation/drawing/states.ts';

/** Test data only: round figures of our own, chosen so that every state and every edge of a drawing occurs. */

const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;

export const centredMark: Mark = {
  heel: -0.08,
  crown: 0.02,
  length: 0.55,
  height: 0.6,
  slant_deg: 4,
  edges: clear,
  U95: { heel: 0.05, crown: 0.06 },
};

export const lowToeMark: Mark = {
  heel: -0.3,
  crown: -0.28,
  length: 0.4,
  height: 0.44,
  slant_deg: 0,
  edges: { ...clear, toe: 'hard', root: 'hard' },
};

export const fadingMark: Mark = {
  heel: 0.2,
  crown: -0.2,
  length: 0.58,
  height: 0.56,
  slant_deg: -6,
  edges: { ...clear, heel: 'feathered', root: 'feathered' },
};

const station = (number: number, of: number, value_mm: number, state: State): RingStation => ({
  number,
  angle_deg: ((number - 1) * 360) / of,
  value_mm,
  U95_mm: 0.008,
  state,
});

/** Six stations, two of them with something to say. */
export const backlashRing: RingInput = {
  quantity: 'Backlash',
  teeth: 41,
  stations: [
    station(1, 6, 0.241, 'within'),
    station(2, 6, 0.262, 'within'),
    station(3, 6, 0.294, 'too-close'),
    station(4, 6, 0.331, 'outside'),
    { number: 5, angle_deg: 240, value_mm: { none: 'drift' }, state: 'not-measured' },
    station(6, 6, 0.226, 'overridden'),
  ],
  limits: { min: 0.2, max: 0.3 },
  next: 5,
  centre: { digits: '0.271', unit: 'mm', words: ['mean of 5'] },
  system: 'metric',
  size: { width: 560, height: 560, text: 16 },
};

export const runoutRing: RingInput = {
  quantity: 'Runout, back face',
  teeth: 43,
  stations: [],
  runout: {
    tir_mm: 0.062,
    limit_mm: 0.08,
    samples: Array.from({ length: 72 }, (_, step) => ({
      angle_deg: step * 5,
      value_mm:
        0.027 * Math.cos(((step * 5 - 128) * Math.PI) / 180) + 0.006 * Math.cos((2 * (step * 5 - 40) * Math.PI) / 180),
    })),
    highSpot_deg: 128,
  },
  centre: { digits: '0.062', unit: 'mm', words: ['TIR'] },
  system: 'metric',
  size: { width: 560, height: 560, text: 16 },
};

/** Runout and backlash together, as on the certificate. */
export const bothRing: RingInput = {
  ...backlashRing,
  stations: Array.from({ length: 8 }, (_, index) =>
    station(index + 1, 8, 0.248 + 0.02 * Math.cos(((index * 45 - 128) * Math.PI) / 180), 'within'),
  ),
  runout: {
    tir_mm: 0.054,
    harmonics: [
      { order: 1, amplitude_mm: 0.025, highSpot_deg: 128 },
      { order: 2, amplitude_mm: 0.004, highSpot_deg: 30 },
    ],
    highSpot_deg: 128,
  },
  centre: { words: ['0.248 mm mean', 'TIR 0.054 mm'] },
};

export const inchLiveRing: RingInput = {
  ...backlashRing,
  stations: backlashRing.stations.slice(0, 2),
  live: { angle_deg: 120, value_mm: 0.288 },
  next: 3,
  centre: { digits: '0.0113', unit: 'in', words: ['station 3'] },
  system: 'inch',
};

export const firstTrialFlanks: FlanksInput = {
  drive: {
    flank: 'convex',
    seen: lowToeMark,
    planned: { ...centredMark, heel: -0.05, crown: 0 },
    target: { heel: [-0.22, 0.12], crown: [-0.12, 0.12] },
  },
  coast: { flank: 'concave', seen: fadingMark, planned: { ...centredMark, heel: 0.08, crown: 0.05 } },
  cut: 'face-milled',
  turned: 'toe-left',
  size: { width: 1040, height: 330, text: 16 },
};

export const usedSetFlanks: FlanksInput = {
  drive: { flank: 'concave', seen: centredMark, found: { ...centredMark, heel: -0.02, crown: 0.08, length: 0.8 } },
  coast: { flank: 'convex', found: { ...fadingMark, heel: -0.2, edges: { ...clear, toe: 'feathered' } } },
  cut: 'face-hobbed',
  turned: 'toe-right',
  size: { width: 1040, height: 330, text: 16 },
};

/** A hand that rocks: two rests a rock, a gap where the plug was out. */
export const rockingTrace: TraceInput = {
  quantity: 'Backlash',
  dimension: 'length',
  points: rocking(),
  events: [
    ...Array.from({ length: 7 }, (_, rest) => ({
      kind: 'rest' as const,
      t: 0.95 + rest * 1.2,
      until: 1.45 + rest * 1.2,
      v: rest % 2 === 0 ? 0.214 : 0,
    })),
    { kind: 'rock', t: 2.3, v: 0 },
    { kind: 'rock', t: 4.7, v: 0 },
  ],
  span_s: 12,
  system: 'metric',
  size: { width: 900, height: 260, text: 16 },
};

function rocking(): readonly TracePoint[] {
  return Array.from({ length: 1200 }, (_, index): TracePoint => {
    const t = index / 100;
    if (t > 9.4 && t < 10.1) return { t, v: { none: 'unplugged' } };
    const phase = (t / 2.4) * 2 * Math.PI;
    const level = 0.5 - 0.5 * Math.tanh(4.5 * Math.cos(phase));
    return { t, v: 0.214 * level + 0.0015 * Math.sin(index * 1.7) };
  });
}

/** Breakaway, then running torque with its ripple. */
export const torqueTrace: TraceInput = {
  quantity: 'Rotating torque',
  dimension: 'torque',
  points: Array.from({ length: 2000 }, (_, index) => {
    const t = index / 100;
    const start = 3 * Math.exp(-(((t - 2.2) / 0.09) ** 2));
    const running = t < 2.2 ? 0 : 2.1 + 0.14 * Math.sin(t * 3.1) + 0.05 * Math.sin(index * 2.3);
    return { t, v: t < 2.2 ? Math.max(start, 0.02 * Math.sin(index)) : Math.max(running, start) };
  }),
  band: { min: 1.7, max: 2.5 },
  events: [
    { kind: 'breakaway', t: 2.2, v: 3 },
    { kind: 'running', t: 6, until: 19.2, v: 2.1, state: 'within' },
  ],
  span_s: 20,
  system: 'metric',
  size: { width: 900, height: 260, text: 16 },
};

export const closeBar: BarInput = {
  quantity: 'Backlash, largest',
  dimension: 'length',
  value: 0.294,
  U95: 0.012,
  limits: { min: 0.2, max: 0.3 },
  state: 'too-close',
  system: 'metric',
  size: { width: 520, height: 76, text: 16 },
};

export const outsideBar: BarInput = {
  ...closeBar,
  quantity: 'Runout, back face',
  value: 0.081,
  U95: 0.006,
  limits: { max: 0.05 },
  state: 'outside',
};
