/** Readings as the command line takes them: seconds, millimetres or newton metres, a pedal. */
type Line = Readonly<Record<string, unknown>>;

export interface Stream {
  readonly name: string;
  readonly verb: 'backlash' | 'runout' | 'torque';
  readonly words: readonly string[];
  readonly lines: readonly Line[];
}

/** A small sine in place of chance: the same readings on every machine. */
const wobble = (n: number): number => 0.0006 * Math.sin(n * 12.9898) * Math.cos(n * 78.233);
const rounded = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6));

function rocking(free: number, step: number, stations: number): readonly Line[] {
  const lines: Line[] = [];
  let n = 0;
  const reading = (value: number): void => {
    lines.push({ t: rounded(n / 10, 0.001), value: rounded(value + wobble(n), step), unit: 'mm' });
    n += 1;
  };
  for (let station = 0; station < stations; station += 1) {
    const here = free + 0.01 * Math.sin((station * Math.PI) / 2);
    for (let rock = 0; rock < 14; rock += 1) {
      const from = rock % 2 === 0 ? 0 : here;
      for (let k = 0; k < 9; k += 1) reading(from);
      for (const share of [0.25, 0.6]) reading(from + (here - 2 * from) * share);
    }
    lines.push({ t: rounded(n / 10, 0.001), pedal: 'next' });
    for (let k = 0; k < 8; k += 1) reading(1.5 - 0.2 * k);
  }
  return lines;
}

function turning(tir: number, withAngle: boolean): readonly Line[] {
  const reading = (n: number): Line => {
    const angle = (n * 360) / 200;
    const value = (tir / 2) * Math.cos((angle * Math.PI) / 180) + 0.003 * Math.cos((2 * angle * Math.PI) / 180);
    return {
      t: rounded(n / 20, 0.001),
      value: rounded(value + wobble(n), 0.001),
      unit: 'mm',
      ...(withAngle ? { angle_deg: rounded(angle % 360, 0.1) } : {}),
    };
  };
  const turn = Array.from({ length: 226 }, (_, n) => reading(n));
  if (withAngle) return turn;
  const mark = (n: number): Line => ({ t: rounded(n / 20 - 0.01, 0.001), pedal: 'next' });
  return [...turn.slice(0, 10), mark(10), ...turn.slice(10, 210), mark(210), ...turn.slice(210)];
}

const pulling = (level: number): readonly Line[] =>
  Array.from({ length: 400 }, (_, n) => {
    const pulls = n >= 40 && n < 360;
    const ripple = 0.1 * level * Math.sin((2 * Math.PI * n) / 100);
    const value = pulls ? level + ripple + (n === 40 ? 0.4 * level : 0) : 0;
    return { t: rounded(n / 20, 0.001), value: rounded(value + wobble(n), 0.001), unit: 'N.m' };
  });

export const streams: readonly Stream[] = [
  ...[0.12, 0.2, 0.27].flatMap((free): readonly Stream[] => [
    {
      name: `backlash-${free}`,
      verb: 'backlash',
      words: ['--min', '0.2mm', '--max', '0.3mm'],
      lines: rocking(free, 0.001, 4),
    },
    {
      name: `backlash-${free}-coarse`,
      verb: 'backlash',
      words: ['--resolution', '0.01mm'],
      lines: rocking(free, 0.01, 2),
    },
  ]),
  ...[0.02, 0.06].flatMap((tir): readonly Stream[] => [
    { name: `runout-${tir}-angle`, verb: 'runout', words: ['--max-runout', '0.05mm'], lines: turning(tir, true) },
    {
      name: `runout-${tir}-marked`,
      verb: 'runout',
      words: ['--rule', 'guarded', '--max-runout', '0.05mm'],
      lines: turning(tir, false),
    },
  ]),
  ...[0.8, 2.4].map((level): Stream => ({
    name: `torque-${level}`,
    verb: 'torque',
    words: ['--min', '1N.m', '--max', '3N.m'],
    lines: pulling(level),
  })),
];

const sets: readonly Line[] = [
  { pinionTeeth: 13, ringTeeth: 45, outerDiameter_mm: 205, offset_mm: 28 },
  { pinionTeeth: 10, ringTeeth: 41, outerDiameter_mm: 240, offset_mm: 38, cut: 'face-milled' },
  { pinionTeeth: 9, ringTeeth: 37, outerDiameter_mm: 260, offset_mm: 0, cut: 'face-hobbed', faceWidth_mm: 38 },
];

export const predictions = { name: 'predict', lines: sets };

const mark = (heel: number, crown: number, edges: Line = {}): Line => ({
  heel,
  crown,
  length: 0.5,
  height: 0.45,
  slant_deg: 0,
  edges: { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear', ...edges },
  U95: { heel: 0.06, crown: 0.06 },
});

export const plans = {
  name: 'plan',
  lines: sets.flatMap((set) =>
    [-0.25, 0, 0.2].map((crown): Line => ({
      set: { ...set, driveFlank: 'convex' },
      backlashBasis: { direction: 'along-rotation', at: 'heel' },
      limits: { backlash_mm: [0.2, 0.3] },
      target: { kind: 'new-set' },
      shimStep_mm: { pinion: 0.025, side: 0.025 },
      trials: [
        {
          pinionOut_mm: 0,
          ringAway_mm: 0,
          backlash: { mean_mm: 0.24, min_mm: 0.22, max_mm: 0.26, U95_mm: 0.01 },
          pattern: { drive: mark(-0.1, crown), coast: mark(0.1, -crown) },
        },
      ],
    })),
  ),
};
