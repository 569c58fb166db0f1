import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { randomSession, type Session } from '../../../hardware-sim/hands/stations.ts';
import { dragTruth, runoutTruth } from '../../../hardware-sim/hands/turnTruth.ts';
import { turning, turningShaft } from '../../../hardware-sim/hands/turning.ts';
import { seeded } from '../../../hardware-sim/seeded.ts';
import { asProgram, inProcess, type Ran } from '../../support/commandLine.ts';
import { temporaryFolder } from '../../support/folder.ts';
import { asLines, motionLines, sessionLines, trueIndicator, trueTorqueGauge } from '../../support/streams.ts';

function file(lines: readonly object[] | string): string {
  const path = join(temporaryFolder(), 'readings.jsonl');
  writeFileSync(path, typeof lines === 'string' ? lines : asLines(lines));
  return path;
}

/** As a program of its own, from a file. */
const measured = async (kind: string, lines: readonly object[] | string, ...options: readonly string[]): Promise<Ran> =>
  asProgram(['measure', kind, '--in', file(lines), ...options]);

/** The same in this process, for what is asked many times: a program takes its second to start. */
const again = async (kind: string, lines: readonly object[] | string, ...options: readonly string[]): Promise<Ran> =>
  inProcess('measure', kind, '--in', file(lines), ...options);

interface Backlash {
  readonly stations: readonly {
    readonly value_mm: number | { readonly none: string };
    readonly rocks: number;
    readonly U95_mm: number;
    readonly flags: readonly string[];
  }[];
  readonly min_mm: number;
  readonly max_mm: number;
  readonly variation_mm: number;
  readonly limits: Readonly<Record<string, string>>;
  readonly closeCalls: readonly string[];
}

/** The first session, counted from this seed on, that is of such a kind. */
function sessionWhere(from: number, isSo: (session: Session) => boolean): Session {
  for (let seed = from; ; seed += 1) {
    const session = randomSession(seeded(seed), { stations: [6, 8] });
    if (isSo(session)) return session;
  }
}

const resolutionOf = ({ gauge }: Session): readonly string[] => [
  '--resolution',
  `${gauge.resolution}${gauge.unit === 'mm' ? 'mm' : 'in'}`,
];

async function backlashOf(session: Session, ...options: readonly string[]): Promise<Backlash> {
  const { code, answers } = await again('backlash', sessionLines(session), ...resolutionOf(session), ...options);
  expect(code).toBe(0);
  expect(answers).toHaveLength(1);
  return answers[0] as Backlash;
}

const mm = (value: number): string => `${value.toFixed(6)}mm`;

/** One session for all that is said about limits: figures first, then limits laid around them. */
const usual = sessionWhere(
  100,
  ({ gauge, rate_Hz }) => gauge.unit === 'mm' && gauge.resolution <= 0.002 && rate_Hz > 20,
);

describe('measure backlash', () => {
  it.each([
    ['in millimetres', sessionWhere(1, ({ gauge, presses }) => gauge.unit === 'mm' && presses.length === 0)],
    ['in inches', sessionWhere(20, ({ gauge }) => gauge.unit === '[in_i]')],
    ['with pedal lines', sessionWhere(40, ({ presses }) => presses.length > 0)],
  ])('finds what the simulated hand rocked: %s', async (_name, session) => {
    const { code, answers } = await measured('backlash', sessionLines(session), ...resolutionOf(session));
    const [answer] = answers as readonly [Backlash];
    expect(code).toBe(0);
    expect(answer.stations).toHaveLength(session.stations.length);
    for (const [n, { value_mm, rocks, U95_mm, flags }] of answer.stations.entries()) {
      const truth = session.stations[n];
      // Against what the gauge's own works show: its scale error is not among the doubts unless --gauge-u says so.
      expect(flags).toEqual([]);
      expect(Math.abs(Number(value_mm) - (truth?.asGauged_mm ?? 0))).toBeLessThanOrEqual(U95_mm);
      // A station is done when its rocks agree; what is rocked after that changes nothing.
      expect(rocks).toBeGreaterThanOrEqual(3);
      expect(rocks).toBeLessThanOrEqual(truth?.rocks ?? 0);
    }
  });

  it('takes the gauge’s own uncertainty into account', async () => {
    const plain = await backlashOf(usual);
    const doubtful = await backlashOf(usual, '--gauge-u', '0.0002in');
    for (const [n, { U95_mm }] of doubtful.stations.entries())
      expect(U95_mm).toBeGreaterThan(plain.stations[n]?.U95_mm ?? Infinity);
  });

  it('judges the worst station and the variation by the limits given', async () => {
    const { min_mm, max_mm, variation_mm, stations, limits } = await backlashOf(usual);
    expect(limits).toEqual({});
    const wide = Math.max(...stations.map(({ U95_mm }) => U95_mm)) * 3;
    const room = ['--min', mm(min_mm - wide), '--max', mm(max_mm + wide), '--max-variation', mm(variation_mm + wide)];
    const within = await backlashOf(usual, ...room);
    expect(within).toMatchObject({ limits: { window: 'within', variation: 'within' }, closeCalls: [] });
    const middle = mm((min_mm + max_mm) / 2);
    const outside = await backlashOf(usual, '--min', '0mm', '--max', middle, '--max-variation', '0.0001in');
    expect(outside.limits).toEqual({ window: 'outside', variation: 'outside' });
  });

  it('names a close call under both rules, and refuses a verdict only under the guarded one', async () => {
    const { max_mm, stations } = await backlashOf(usual);
    const worst = stations.find(({ value_mm }) => value_mm === max_mm);
    const limits = ['--min', '0mm', '--max', mm(max_mm + (worst?.U95_mm ?? 0) / 2)];
    expect(await backlashOf(usual, ...limits)).toMatchObject({ limits: { window: 'within' }, closeCalls: ['window'] });
    const guarded = await backlashOf(usual, ...limits, '--rule', 'guarded');
    expect(guarded).toMatchObject({ limits: { window: 'too-close' }, closeCalls: ['window'] });
    const far = await backlashOf(usual, '--min', '0mm', '--max', '0.01mm', '--rule', 'guarded');
    expect(far.limits).toEqual({ window: 'outside' });
  });

  it('reads standard input, and passes over lines that watch could not read', async () => {
    const lines: object[] = sessionLines(usual).map((line) =>
      'pedal' in line ? line : { ...line, raw: 'as sent', flags: [] },
    );
    lines.splice(50, 0, { t: 0, value: { none: 'noise' }, unit: '', raw: '\u00ff', flags: [] });
    const words = ['measure', 'backlash', '--in', '-', ...resolutionOf(usual)];
    const { code, answers } = await asProgram(words, asLines(lines));
    expect(code).toBe(0);
    expect(answers).toEqual([await backlashOf(usual)]);
  });

  it('ends with 1 and the reasons where nothing can be measured', async () => {
    const still = Array.from({ length: 500 }, (_, n) => ({ t: n / 100, value: 1.234, unit: 'mm' }));
    const { code, answers, said } = await measured('backlash', still);
    expect(code).toBe(1);
    expect(answers).toHaveLength(1);
    expect(said).toMatch(/No backlash/u);
    for (const { value_mm } of (answers[0] as Backlash).stations)
      expect(value_mm).toEqual({ none: expect.any(String) });
  });
});

describe('measure runout', () => {
  const surfaceAt = (angle: number): number => 0.02 * Math.cos(angle - 0.7) + 0.004 * Math.cos(2 * angle + 0.3);
  const truth = runoutTruth(surfaceAt);
  const turn = { surfaceAt, preload_mm: 3, start_rad: 0, speed_rad_s: 2 * Math.PI * 0.2, unevenness: 0.3, rest_s: 0.5 };
  const lines = motionLines(turning(turn, 1.03, seeded(5)), trueIndicator(seeded(6)));

  it('finds the full indicator movement and where it stands highest', async () => {
    const { code, answers } = await measured('runout', lines, '--max-runout', '0.1mm');
    expect(code).toBe(0);
    const [answer] = answers as readonly {
      readonly tir_mm: number;
      readonly U95_mm: number;
      readonly harmonics: readonly {
        readonly order: number;
        readonly amplitude_mm: number;
        readonly highSpot_deg: number;
      }[];
      readonly limits: object;
    }[];
    expect(answer?.limits).toEqual({ runout: 'within' });
    expect(Math.abs((answer?.tir_mm ?? 0) - truth.tir_mm)).toBeLessThanOrEqual(answer?.U95_mm ?? 0);
    const first = answer?.harmonics.find(({ order }) => order === 1);
    expect(first?.amplitude_mm).toBeCloseTo(truth.first.amplitude_mm, 3);
    expect(first?.highSpot_deg).toBeCloseTo((truth.first.highSpot_rad * 180) / Math.PI, -0.5);
  });

  it('judges it by its limit', async () => {
    const { answers } = await again('runout', lines, '--max-runout', '0.001in');
    expect(answers[0]).toMatchObject({ limits: { runout: 'outside' }, closeCalls: [] });
    const close = await again('runout', lines, '--max-runout', mm(truth.tir_mm), '--rule', 'guarded');
    expect(close.answers[0]).toMatchObject({ limits: { runout: 'too-close' }, closeCalls: ['runout'] });
  });
});

describe('measure torque', () => {
  const shaft = {
    dragAt: (angle: number) => 2.4 * (1 + 0.05 * Math.cos(angle)),
    breakawayFactor: 1.4,
    start_rad: 1,
    turns: 3,
    speed_rad_s: 2 * Math.PI,
    rest_s: 0.5,
    unevenness: 0.02,
  };
  const truth = dragTruth(shaft);
  const asFelt = (unit: 'N.m' | '[lbf_av].[in_i]', resolution: number) =>
    motionLines(turningShaft(shaft, seeded(8)), trueTorqueGauge(seeded(9), { unit, resolution }));

  interface Torque {
    readonly running_Nm: number;
    readonly breakaway_Nm: number;
    readonly U95_Nm: number;
    readonly average: string;
  }

  it.each([
    ['N·m', asFelt('N.m', 0.01)],
    ['in-lb', asFelt('[lbf_av].[in_i]', 0.1)],
  ])('finds running and breakaway torque, sent in %s', async (_unit, lines) => {
    const { code, answers } = await measured('torque', lines);
    const [answer] = answers as readonly Torque[];
    expect(code).toBe(0);
    expect(answer?.average).toBe('whole-turns');
    // The hand's own swing does not quite cancel over the turns: 1 % is left to it.
    const room = (answer?.U95_Nm ?? 0) + 0.01 * truth.running_Nm;
    expect(Math.abs((answer?.running_Nm ?? 0) - truth.running_Nm)).toBeLessThanOrEqual(room);
    expect(Math.abs((answer?.breakaway_Nm ?? 0) - truth.breakaway_Nm)).toBeLessThan(0.1 * truth.breakaway_Nm);
  });

  it('averages over time where no angle is known', async () => {
    const lines = asFelt('N.m', 0.01).map((line) => ({ ...line, angle_deg: undefined }));
    const { answers } = await again('torque', lines);
    const [answer] = answers as readonly Torque[];
    expect(answer?.average).toBe('time');
    expect(Math.abs((answer?.running_Nm ?? 0) - truth.running_Nm)).toBeLessThanOrEqual(answer?.U95_Nm ?? 0);
  });

  it('judges running or starting torque, whichever the limit is of', async () => {
    const lines = asFelt('N.m', 0.01);
    const running = await again('torque', lines, '--min', '15in-lb', '--max', '3N.m');
    expect(running.answers[0]).toMatchObject({ limits: { torque: 'within' } });
    // 3.4 N·m to start, 2.4 to keep turning.
    const starting = await again('torque', lines, '--min', '15in-lb', '--max', '3N.m', '--basis', 'starting');
    expect(starting.answers[0]).toMatchObject({ limits: { torque: 'outside' } });
  });
});

describe('measure with a stated hysteresis', () => {
  const lines = sessionLines(usual);
  const doubts = async (...options: readonly string[]): Promise<readonly number[]> => {
    const { code, answers } = await again('backlash', lines, ...resolutionOf(usual), ...options);
    expect(code).toBe(0);
    const [answer] = answers as readonly { readonly stations: readonly { readonly u_mm: number }[] }[];
    return answer?.stations.map(({ u_mm }) => u_mm) ?? [];
  };

  it('puts it into the doubt of every station; none stated is one step, none at all is none', async () => {
    const [step, none, wide] = [
      await doubts(),
      await doubts('--hysteresis', '0mm'),
      await doubts('--hysteresis', '9um'),
    ];
    expect(none.length).toBeGreaterThan(0);
    // What else is in the doubt may differ too: a wider gauge needs fewer rocks to agree.
    for (const [index, u] of none.entries()) {
      expect(u).toBeLessThan(step[index] ?? 0);
      expect(step[index]).toBeGreaterThanOrEqual(usual.gauge.resolution);
      expect(wide[index]).toBeGreaterThan(0.009 / Math.SQRT2);
    }
  });

  it('takes none for a torque, and no width below nought', async () => {
    const torque = await again('torque', [{ t: 1, value: 0.2, unit: 'N.m' }], '--hysteresis', '0.1N.m');
    expect(torque.code).toBe(2);
    expect(torque.said).toContain('A hysteresis is stated for an indicator');
    const below = await again('runout', [{ t: 1, value: 0.2, unit: 'mm' }], '--hysteresis', '-0.001mm');
    expect(below.code).toBe(2);
  });
});

describe('measure torque with a pull scale', () => {
  const pulled = Array.from({ length: 500 }, (_, i) => ({
    t: i / 50,
    value: i < 50 || i > 460 ? 0 : 12 + (i < 60 ? 6 : 0),
    unit: 'N',
  }));

  it('makes a torque of the force at its arm, the doubt of the arm included', async () => {
    const { code, answers } = await again(
      'torque',
      pulled,
      '--arm',
      '150mm',
      '--arm-u',
      '1.5mm',
      '--resolution',
      '0.1N',
    );
    expect(code).toBe(0);
    const [answer] = answers as readonly { readonly running_Nm: number; readonly U95_Nm: number }[];
    expect(answer?.running_Nm).toBeCloseTo(1.8, 2);
    // One per cent of 1.8 N·m, twice.
    expect(answer?.U95_Nm).toBeGreaterThan(0.034);
  });

  it('takes no force for a torque without it, and no arm for a length', async () => {
    const without = await again('torque', pulled);
    expect(without.code).toBe(2);
    expect(without.said).toMatch(/Line 1.*N is a unit of something else/u);
    const length = await again('runout', [{ t: 1, value: 0.2, unit: 'mm' }], '--arm', '150mm');
    expect(length.code).toBe(2);
    expect(length.said).toContain('An arm belongs to a torque');
  });
});

describe('a line that cannot be read ends with 2 and is named', () => {
  const good = { t: 1, value: 0.2, unit: 'mm' };
  const bad: readonly (readonly [string, string, RegExp])[] = [
    ['no JSON', '{"t":2,', /Line 3/u],
    ['a value that is a word', '{"t":2,"value":"0.2","unit":"mm"}', /Line 3/u],
    ['no time', '{"value":0.2,"unit":"mm"}', /Line 3/u],
    ['a unit nobody knows', '{"t":2,"value":0.2,"unit":"furlong"}', /Line 3/u],
    ['a unit of something else', '{"t":2,"value":0.2,"unit":"N.m"}', /Line 3.*N\.m/u],
    ['a pedal that does not exist', '{"t":2,"pedal":"forward"}', /Line 3/u],
  ];
  it.each(bad)('%s', async (_name, line, words) => {
    const { code, answers, said } = await measured('backlash', `${asLines([good, good])}${line}\n${asLines([good])}`);
    expect(code).toBe(2);
    expect(answers).toEqual([]);
    expect(said).toMatch(words);
  });

  it('empty lines are counted too', async () => {
    const { code, said } = await again('backlash', `${asLines([good])}\n\nnothing\n`);
    expect(code).toBe(2);
    expect(said).toMatch(/Line 4/u);
  });
});
