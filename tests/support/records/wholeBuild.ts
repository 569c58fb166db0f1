import { combine } from '../../../src/shared/measuring/uncertainty/uncertainty.ts';
import type { MakeUp } from '../../../src/shared/axle/makeUp.ts';
import type {
  How,
  MarkResult,
  RunoutResult,
  ShimPack,
  TorqueResult,
} from '../../../src/shared/job/records/measurement.ts';
import type { TorqueBasis } from '../../../src/shared/basics/recorded.ts';
import type { GaugeSeen } from '../../../src/shared/job/records/gauge.ts';
import type { Deed, Entry } from '../../../src/shared/job/records/notebook.ts';
import type { SpecSheet } from '../../../src/shared/job/records/specSheet.ts';
import type { CheckId } from '../../../src/shared/job/records/checkIds.ts';
import type { Mark } from '../../../src/shared/axle/mark/mark.ts';
import {
  asFound,
  backlash,
  backlashBasis,
  final,
  limitsSet,
  makeUp,
  measured,
  notebook,
  specSheet,
  stripping,
  trial,
} from './scenario.ts';

/** A whole build from as found to the last mark, so that a certificate has everything to show. All of it invented. */
export interface Whole {
  readonly trials: number;
  readonly stations: number;
  readonly gearSet?: MakeUp['gearSet'];
  /** Written after everything else. */
  readonly more?: readonly Deed[];
  /** Takes deeds out again, for a certificate that is incomplete. */
  readonly without?: (deed: Deed) => boolean;
}

const mm = (value: number) => ({ value: Math.round(value * 1e6) / 1e6, unit: 'mm' });
const Nm = (value: number) => ({ value, unit: 'N.m' });

export const indicator: GaugeSeen = {
  id: 'g1',
  label: 'Indicator at the ring gear',
  kind: 'indicator',
  serial: 'IND-0042',
  resolution: mm(0.001),
  statedError: mm(0.003),
  hysteresis: mm(0.002),
  calibratedOn: '2025-02-03',
  dueOn: '2026-02-03',
};

export const torqueGauge: GaugeSeen = {
  id: 'g2',
  label: 'Torque gauge',
  kind: 'torque',
  serial: 'TQ-0007',
  resolution: Nm(0.01),
  statedError_percent: 1,
  calibratedOn: '2024-11-20',
  dueOn: '2025-11-20',
};

const micrometer: GaugeSeen = {
  id: 'g3',
  label: 'Micrometer 0–25 mm',
  kind: 'typed',
  serial: 'MIC-19',
  resolution: mm(0.001),
  calibratedOn: '2025-06-30',
  dueOn: '2026-06-30',
};

const stretch = (gauge: string) => ({ gauge, from: 1, to: 900 });
const byIndicator: How = {
  kind: 'streamed',
  gauge: indicator,
  stretch: stretch('g1'),
  settings: { kind: 'backlash', basis: backlashBasis, nextBy: 'itself' },
};
const byRunout: How = { ...byIndicator, settings: { kind: 'runout', mode: 'stations', stations: 8 } };
const byMicrometer: How = { kind: 'typed', tool: 'micrometer', resolution: mm(0.001), gauge: micrometer };
const byWrench: How = { kind: 'typed', tool: 'dial torque wrench', resolution: Nm(1) };
const byFeeler: How = { kind: 'typed', tool: 'feeler set', resolution: mm(0.01) };
const byTorque = (basis: TorqueBasis): How => ({
  kind: 'streamed',
  gauge: torqueGauge,
  stretch: stretch('g2'),
  settings: { kind: 'torque', basis },
});

const torque = (running_Nm: number, basis: TorqueBasis): TorqueResult => ({
  kind: 'torque',
  basis,
  running_Nm,
  breakaway_Nm: running_Nm * 1.35,
  breakawayU95_Nm: 0.1,
  ripple_Nm: running_Nm * 0.08,
  drift_Nm: 0,
  average: 'whole-turns',
  turns: 3,
  u_Nm: 0.02,
  U95_Nm: combine([{ name: 'repeat', u: 0.02 }]).U95,
  flags: [],
  parts: [{ name: 'repeat', u: 0.02 }],
});

const runout = (amplitude: number, high: number): RunoutResult => ({
  kind: 'runout',
  tir_mm: amplitude * 2,
  harmonics: [
    { order: 1, amplitude_mm: amplitude * 0.9, highSpot_deg: high, u_mm: 0.001 },
    { order: 2, amplitude_mm: amplitude * 0.15, highSpot_deg: 40, u_mm: 0.001 },
  ],
  residual_mm: 0.002,
  stations: Array.from({ length: 8 }, (_, index) => ({
    number: index + 1,
    angle_deg: index * 45,
    value_mm: amplitude * Math.cos(((index * 45 - high) * Math.PI) / 180),
  })),
  missAtWorst_mm: 0.001,
  shape: 'eccentric',
  u_mm: 0.002,
  U95_mm: combine([{ name: 'resolution', u: 0.002 }]).U95,
  flags: [],
  parts: [{ name: 'resolution', u: 0.002 }],
});

/** Backlash that follows the runout round the gear, as it does on an axle. */
const round = (mean: number, stations: number, swing = 0.012) =>
  backlash(
    Array.from(
      { length: stations },
      (_, index) => mean + swing * Math.cos(((index * 360) / stations - 128) * (Math.PI / 180)),
    ),
  );

const clear = { toe: 'clear', heel: 'clear', crown: 'clear', root: 'clear' } as const;
const mark = (heel: number, crown: number, edges: Partial<Mark['edges']> = {}): Mark => ({
  heel,
  crown,
  length: 0.52,
  height: 0.56,
  slant_deg: 4,
  edges: { ...clear, ...edges },
  U95: { heel: 0.05, crown: 0.06 },
});
const marks = (drive: Mark, coast: Mark, judgement: MarkResult['judgement']): MarkResult => ({
  kind: 'mark',
  drive,
  coast,
  judgement,
  compound: 'yellow, thin film',
});

const packs = (depth: number, side: number): readonly ShimPack[] => [
  { place: 'pinion-depth', each: [mm(0.75), mm(depth - 0.75)], pack: mm(depth) },
  { place: 'ring-side', each: [mm(side)], pack: mm(side) },
  { place: 'opposite-side', each: [mm(1.2), mm(7 - side - 1.2)], pack: mm(7 - side) },
];

export const wholeSheet: SpecSheet = {
  ...specSheet,
  limits: [
    ...specSheet.limits,
    {
      quantity: 'pinion-torque',
      basis: { basis: 'running', seal: 'in', bearings: 'new' },
      min: Nm(1.8),
      max: Nm(2.8),
      source: 'shop sheet for the invented axle, page 3, torque turning with a new seal',
    },
    {
      quantity: 'total-torque',
      basis: { basis: 'running', seal: 'in', bearings: 'new' },
      min: Nm(2.2),
      max: Nm(3.8),
      source: 'shop sheet for the invented axle, page 3',
    },
    { quantity: 'case-preload', min: mm(0.15), max: mm(0.25), source: 'shop sheet for the invented axle, page 4' },
    { quantity: 'case-end-play', max: mm(0.01), source: 'common practice in this shop' },
    { quantity: 'cap-torque', min: Nm(75), max: Nm(85), source: 'shop sheet for the invented axle, page 2' },
    { quantity: 'ring-bolt-torque', min: Nm(95), max: Nm(105), source: 'shop sheet for the invented axle, page 2' },
    { quantity: 'ring-gear-seat', max: mm(0.03), source: 'common practice in this shop' },
  ],
};

const setUp: TorqueBasis = { basis: 'running', seal: 'out', bearings: 'set-up' };
const closed: TorqueBasis = { basis: 'running', seal: 'in', bearings: 'new' };
const worn: TorqueBasis = { basis: 'running', seal: 'in', bearings: 'used' };

/** Deeds of one assembly, waiting for the id of the entry that opens it. */
type Opened = (assembly: string) => readonly Deed[];

const foundDeeds =
  (stations: number): Opened =>
  (at) => [
    measured(at, 'ring-gear-runout', runout(0.041, 110), byRunout),
    measured(at, 'total-torque', torque(1.3, worn), byTorque(worn)),
    measured(at, 'case-tight', { kind: 'confirmed', yes: true }),
    measured(at, 'backlash', round(0.31, stations), byIndicator),
    measured(at, 'mark', marks(mark(-0.22, 0.18), mark(0.12, -0.16), 'recorded')),
    {
      kind: 'overridden',
      assembly: at,
      check: 'backlash',
      reason: 'As it came in, with the old bearings worn; it is the reason for the work and not its result.',
    },
    { kind: 'overridden', assembly: at, check: 'ring-gear-runout', reason: 'Old bearings; taken again in the trials.' },
  ];

const strippingDeeds: Opened = (at) => [
  measured(at, 'caps-marked', { kind: 'confirmed', yes: true }),
  measured(at, 'set-numbers', { kind: 'set-numbers', pinion: '4711', ringGear: '4711' }),
  measured(at, 'shims', { kind: 'shims', packs: [...packs(1.1, 3.4)] }, byMicrometer),
  measured(at, 'pinion-torque', torque(0.9, worn), byTorque(worn)),
];

const trialDeeds =
  (stations: number, step: number, last: boolean): Opened =>
  (at) => [
    measured(at, 'set-numbers', { kind: 'set-numbers', pinion: '4711', ringGear: '4711' }),
    measured(at, 'shims', { kind: 'shims', packs: [...packs(1.2 + step * 0.04, 3.1 + step * 0.05)] }, byMicrometer),
    measured(at, 'cup-seat', { kind: 'feeler', thickness: mm(0.03), entered: false, places: 4 }, byFeeler),
    measured(at, 'flange-runout', runout(0.012, 40), byRunout),
    measured(at, 'ring-gear-seat', { kind: 'feeler', thickness: mm(0.03), entered: false, places: 4 }, byFeeler),
    measured(at, 'ring-bolt-torque', { kind: 'quantity', value: Nm(100) }, byWrench),
    measured(at, 'ring-gear-runout', runout(0.024, 128), byRunout),
    measured(at, 'pinion-torque', torque(0.6, setUp), byTorque(setUp)),
    measured(
      at,
      'case-end-play',
      { kind: 'quantity', value: mm(0) },
      { kind: 'typed', tool: 'lever indicator', resolution: mm(0.01) },
    ),
    measured(at, 'cap-torque', { kind: 'quantity', value: Nm(80) }, byWrench),
    ...(last ? [measured(at, 'backlash', round(0.25, stations), byIndicator)] : []),
    measured(at, 'backlash', round(last ? 0.205 : 0.29 - step * 0.005, stations), byIndicator),
    measured(
      at,
      'mark',
      marks(
        last ? mark(-0.06, 0.02) : mark(-0.3 + step * 0.02, -0.24, { toe: 'hard' }),
        mark(0.1, -0.1),
        last ? 'accepted' : 'change',
      ),
    ),
    ...(last
      ? []
      : ([
          { kind: 'overridden', assembly: at, check: 'backlash', reason: 'Painted all the same, to see the depth.' },
        ] as const)),
  ];

const finalDeeds =
  (stations: number): Opened =>
  (at) => [
    measured(at, 'shims', { kind: 'shims', packs: [...packs(1.28, 3.2)] }, byMicrometer),
    measured(at, 'sleeve-new', { kind: 'confirmed', yes: true, note: 'sleeve from a new pack, nut new' }),
    measured(at, 'pinion-torque', torque(2.3, closed), byTorque(closed)),
    measured(at, 'case-preload', { kind: 'quantity', value: mm(0.2) }, byMicrometer),
    measured(at, 'cap-torque', { kind: 'quantity', value: Nm(80) }, byWrench),
    measured(at, 'backlash', round(0.232, stations), byIndicator),
    measured(at, 'total-torque', torque(3.05, closed), byTorque(closed)),
    measured(at, 'nut-locked', { kind: 'confirmed', yes: true, note: 'staked' }),
    measured(at, 'bolts-locked', { kind: 'confirmed', yes: true }),
    measured(at, 'mark', {
      ...marks(mark(-0.04, 0.03), mark(0.07, -0.06), 'accepted'),
      note: 'same on all four painted teeth',
    }),
    measured(at, 'oil', { kind: 'confirmed', yes: true, note: '2.1 l of the grade on the plate' }),
  ];

/** The notebook of a whole build. */
export function wholeNotebook({ trials, stations, gearSet = 'new', more = [], without = () => false }: Whole): Entry[] {
  const deeds: Deed[] = [
    { kind: 'described', makeUp: { ...makeUp, gearSet } },
    { ...limitsSet, specSheet: wholeSheet } as Deed,
    {
      kind: 'noted',
      topic: 'complaint',
      text: 'Howls on overrun between 70 and 90 km/h since the bearings were changed elsewhere.',
    },
  ];
  const open = (deed: Deed, inside: Opened): void => {
    deeds.push(deed);
    deeds.push(...inside(`e${deeds.length}`));
  };
  open(asFound, foundDeeds(stations));
  open(stripping, strippingDeeds);
  for (let step = 1; step <= trials; step += 1) open(trial, trialDeeds(stations, step, step === trials));
  open(final, finalDeeds(stations));
  deeds.push(
    { kind: 'noted', topic: 'oil', text: '2.1 l of the grade on the plate, with additive for the clutch packs.' },
    ...more,
  );
  return renumbered(deeds, without);
}

/** Leaving deeds out must not move the ids others point at, so the entries are numbered first. */
const renumbered = (deeds: readonly Deed[], without: (deed: Deed) => boolean): Entry[] =>
  notebook(...deeds).filter(({ deed }) => !without(deed));

export const leaves =
  (...checks: readonly CheckId[]) =>
  (deed: Deed): boolean =>
    deed.kind === 'measured' && checks.includes(deed.check);
