import { describe, expect, it } from 'vitest';
import { conformanceProbability, normalTail } from '../../../src/shared/measuring/uncertainty/conformity.ts';
import { fitLine } from '../../../src/shared/basics/leastSquares.ts';
import { t95, tQuantile } from '../../../src/shared/basics/studentT.ts';
import { combine, effectiveDegrees, rectangular } from '../../../src/shared/measuring/uncertainty/uncertainty.ts';
import { judge } from '../../../src/shared/measuring/uncertainty/verdict.ts';
import { units } from '../../../src/shared/basics/units.ts';
import vectors from './vectors.json' with { type: 'json' };

describe('GUM H.1, end gauge', () => {
  // Source: JCGM 100:2008, H.1. Inputs and u_c 32 nm retrieved; ν 16.7, k 2.92, U 93 nm recalled; unrounded derived.
  const { inputs, unrounded, published } = vectors.gum_h1;
  const comparison = [
    { name: 'repeated observations', u: inputs.u_d0, nu: inputs.nu_d0 },
    { name: 'comparator, random', u: inputs.u_d1, nu: inputs.nu_d1 },
    { name: 'comparator, systematic', u: inputs.u_d2, nu: inputs.nu_d2 },
  ];
  const d = { name: 'comparison', u: combine(comparison).u, nu: effectiveDegrees(comparison) };
  const parts = [
    { name: 'standard', u: inputs.u_ls, nu: inputs.nu_ls },
    d,
    {
      name: 'difference in expansion',
      u: inputs.ls_nm * Math.abs(inputs.theta) * rectangular(inputs.half_dalpha),
      nu: inputs.nu_dalpha,
    },
    {
      name: 'difference in temperature',
      u: inputs.ls_nm * inputs.alpha_s * rectangular(inputs.half_dtheta),
      nu: inputs.nu_dtheta,
    },
  ];
  const whole = combine(parts);

  it('parts', () => {
    expect(d.u).toBeCloseTo(unrounded.u_d, 9);
    expect(d.nu).toBeCloseTo(unrounded.nu_d, 9);
    expect(parts[2]?.u).toBeCloseTo(unrounded.u_dalpha_term, 9);
    expect(parts[3]?.u).toBeCloseTo(unrounded.u_dtheta_term, 9);
  });

  it('combined, as printed and unrounded', () => {
    expect(Math.round(whole.u)).toBe(published.uc);
    expect(whole.u).toBeCloseTo(unrounded.uc, 9);
    expect(effectiveDegrees(parts)).toBeCloseTo(unrounded.nu_eff, 9);
    expect(whole.nu).toBe(published.nu_eff_truncated);
  });

  it('expanded', () => {
    expect(tQuantile(0.995, whole.nu)).toBeCloseTo(unrounded.t99_16, 9);
    expect(tQuantile(0.995, whole.nu) * whole.u).toBeCloseTo(unrounded.U99, 7);
    expect(whole.k).toBeCloseTo(unrounded.t95_16, 9);
    expect(whole.U95).toBeCloseTo(unrounded.t95_16 * unrounded.uc, 7);
  });
});

it('GUM H.3, calibration line', () => {
  // Source: JCGM 100:2008, H.3 (retrieved and derived).
  const { t, b, t0, ...expected } = vectors.gum_h3;
  const fit = fitLine(
    t.map((temperature) => temperature - t0),
    b,
  );
  expect(fit?.coefficients[0]).toBeCloseTo(expected.intercept, 12);
  expect(fit?.coefficients[1]).toBeCloseTo(expected.slope, 12);
  expect(fit?.u[0]).toBeCloseTo(expected.u_intercept, 7);
  expect(fit?.u[1]).toBeCloseTo(expected.u_slope, 12);
  expect(fit?.residualSquares).toBeCloseTo(expected.ss_res, 14);
  expect((fit?.coefficients[0] ?? 0) + 10 * (fit?.coefficients[1] ?? 0)).toBeCloseTo(expected.b30, 12);
});

describe('coverage factors', () => {
  // Layout of GUM table G.2 (table recalled; these four decimals derived): t for 68.27, 95 and 99 %.
  it.each([
    [1, 1.8374, 12.7062, 63.6567],
    [2, 1.3213, 4.3027, 9.9248],
    [3, 1.1969, 3.1824, 5.8409],
    [4, 1.1417, 2.7764, 4.6041],
    [5, 1.1105, 2.5706, 4.0321],
    [6, 1.0906, 2.4469, 3.7074],
    [7, 1.0767, 2.3646, 3.4995],
    [8, 1.0666, 2.306, 3.3554],
    [9, 1.0588, 2.2622, 3.2498],
    [10, 1.0526, 2.2281, 3.1693],
    [12, 1.0435, 2.1788, 3.0545],
    [15, 1.0345, 2.1314, 2.9467],
    [16, 1.0323, 2.1199, 2.9208],
    [20, 1.0257, 2.086, 2.8453],
    [30, 1.017, 2.0423, 2.75],
    [50, 1.0101, 2.0086, 2.6778],
    [100, 1.005, 1.984, 2.6259],
    [Infinity, 1.0, 1.96, 2.5758],
  ])('%d degrees of freedom', (nu, one, ninetyFive, ninetyNine) => {
    expect(tQuantile(0.5 + 0.6827 / 2, nu)).toBeCloseTo(one, 4);
    expect(t95(nu)).toBeCloseTo(ninetyFive, 4);
    expect(tQuantile(0.995, nu)).toBeCloseTo(ninetyNine, 4);
  });
});

describe('conformity', () => {
  // Source: JCGM 106:2012, one-sided and two-sided examples (inputs and printed values recalled, digits derived);
  // the last two from a public risk test suite (sandialabs/suncal, retrieved).
  it.each(vectors.conformance)('conformance probability of $y with u $u', ({ y, u, pc, ...ends }) => {
    const limit = {
      ...(ends.TL === undefined ? {} : { min: ends.TL }),
      ...(ends.TU === undefined ? {} : { max: ends.TU }),
    };
    expect(conformanceProbability(y, u, limit)).toBeCloseTo(pc, 10);
  });

  it.each([
    // JCGM 106:2012, table 1 (recalled): z for a one-sided conformance probability, exact values derived.
    [0.8, 0.8416],
    [0.9, 1.2816],
    [0.95, 1.6449],
    [0.99, 2.3263],
    [0.999, 3.0902],
  ])('p %d at z %d', (p, z) => {
    expect(conformanceProbability(-z, 1, { max: 0 })).toBeCloseTo(p, 4);
  });

  it.each(['4', '5', '6', '8'] as const)('guard factor for a window of %s u', (width) => {
    // Derived; probability limit of 95 % as in ISO 14253-1:2017 (text not read).
    const guard = vectors.guard_factor_two_sided_95[width];
    expect(conformanceProbability(guard, 1, { min: 0, max: Number(width) })).toBeCloseTo(0.95, 10);
  });

  it('worked zones for a backlash of 0.10 to 0.20 mm', () => {
    // Constructed example, derived: u 0.006, guard 1.6449·u; within 0.10987…0.19013, outside beyond 0.09013…0.20987.
    const window = { min: 0.1, max: 0.2 };
    const guard = vectors.guard_factor_two_sided_95.one_sided * 0.006;
    const verdict = (value: number) => judge(value, guard, window, 'guarded').verdict;
    expect([0.1098, 0.1099, 0.1901, 0.1902, 0.2098, 0.2099, 0.0902, 0.0901].map(verdict)).toEqual([
      'too-close', 'within', 'within', 'too-close', 'too-close', 'outside', 'too-close', 'outside',
    ]); // prettier-ignore
    expect(conformanceProbability(0.192, 0.006, window)).toBeCloseTo(0.90879, 5);
    expect(conformanceProbability(0.19, 0.006, window)).toBeCloseTo(0.95221, 5);
  });
});

describe('risks of deciding', () => {
  function area(f: (x: number) => number, from: number, to: number, steps = 10_000): number {
    const step = (to - from) / steps;
    let sum = 0;
    for (let i = 0; i < steps; i += 1) sum += f(from + (i + 0.5) * step) * step;
    return sum;
  }

  /** Share of a population that is accepted although outside, and refused although within (midpoint sums). */
  function risks(density: (x: number) => number, low: number, high: number, um: number, judged: readonly number[]) {
    const [TL = 0, TU = 0, AL = 0, AU = 0] = judged;
    const accepted = (x: number) => conformanceProbability(x, um, { min: AL, max: AU });
    const wrongly = (x: number) => density(x) * accepted(x);
    const consumer = area(wrongly, low, TL) + area(wrongly, TU, high);
    const producer = area((x) => density(x) * (1 - accepted(x)), TL, TU);
    return { consumer, producer };
  }

  // Source: JCGM 106:2012, 9.5.4 (retrieved through a public worked example, derived): gamma prior, u_m 0.25 µm.
  it('ball bearing', () => {
    const { TU, um, Rc, Rp, A_for_Rc_0001: guarded, Rp_guarded } = vectors.ball_bearing;
    const gamma = (x: number) => ((4 * x) ** 3 * 4 * Math.exp(-4 * x)) / 6;
    const plain = risks(gamma, 0, 12, um, [0, TU, -Infinity, TU]);
    expect(plain.consumer).toBeCloseTo(Rc, 6);
    expect(plain.producer).toBeCloseTo(Rp, 6);
    const cautious = risks(gamma, 0, 12, um, [0, TU, -Infinity, guarded]);
    expect(cautious.consumer).toBeCloseTo(0.001, 6);
    expect(cautious.producer).toBeCloseTo(Rp_guarded, 6);
  });

  // Source: JCGM 106:2012, resistor example (printed .02/.04 and .01/.07 recalled, digits derived).
  it('resistor', () => {
    const { y0, u0, um, TL, TU, simple, guarded } = vectors.resistor;
    const normal = (x: number) => Math.exp(-(((x - y0) / u0) ** 2) / 2) / (u0 * Math.sqrt(2 * Math.PI));
    const plain = risks(normal, y0 - 8 * u0, y0 + 8 * u0, um, [TL, TU, TL, TU]);
    expect(plain.consumer).toBeCloseTo(simple.Rc, 6);
    expect(plain.producer).toBeCloseTo(simple.Rp, 6);
    const cautious = risks(normal, y0 - 8 * u0, y0 + 8 * u0, um, [TL, TU, guarded.AL, guarded.AU]);
    expect(cautious.consumer).toBeCloseTo(guarded.Rc, 6);
    expect(cautious.producer).toBeCloseTo(guarded.Rp, 6);
  });

  it('a process within its limits', () => {
    // Source: a public risk test suite (sandialabs/suncal, retrieved): N(10, 0.4) in 9…11, 0.621 % on each side.
    expect(normalTail(2.5)).toBeCloseTo(0.00621, 5);
  });
});

// Source: UCUM (ucum-org/ucum, retrieved) and the exact definitions of inch and pound-force.
it('unit factors', () => {
  const table = vectors.units;
  expect(units.in.factor).toBe(table['[in_i] -> mm']);
  expect(units.inLb.factor).toBeCloseTo(table['[lbf_av].[in_i] -> N.m'], 15);
  expect(units.ftLb.factor).toBeCloseTo(table['[lbf_av].[ft_i] -> N.m'], 14);
  expect(1 / units.inLb.factor).toBeCloseTo(table['N.m -> [lbf_av].[in_i]'], 12);
});
