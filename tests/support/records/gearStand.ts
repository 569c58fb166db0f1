import type { Assembly, Build } from '../../../src/shared/job/records/build.ts';
import type { MakeUp } from '../../../src/shared/axle/makeUp.ts';
import type {
  BacklashResult,
  CaptureSettings,
  How,
  RunoutResult,
} from '../../../src/shared/job/records/measurement.ts';
import type { Deed } from '../../../src/shared/job/records/notebook.ts';
import type { CheckId } from '../../../src/shared/job/records/checkIds.ts';
import { backlash, buildOf, limitsSet, makeUp, measured, notebook, trial } from './scenario.ts';

type RunoutSaid = Omit<Extract<CaptureSettings, { kind: 'runout' }>, 'kind' | 'mode'>;

/** A lobe of the gear: half its full movement, and the angle of its high spot. */
export interface Lobe {
  readonly order: number;
  readonly amplitude_mm: number;
  readonly highSpot_deg: number;
}

/** A runout read at stations, made of these lobes and nothing else. */
export const runoutOf = (lobes: readonly Lobe[], u_mm = 0.002): RunoutResult => ({
  kind: 'runout',
  tir_mm: 2 * (lobes[0]?.amplitude_mm ?? 0),
  harmonics: lobes.map((lobe) => ({ ...lobe, u_mm: u_mm / 4 })),
  residual_mm: 0,
  stations: [],
  missAtWorst_mm: 0,
  shape: 'eccentric',
  u_mm,
  U95_mm: 2 * u_mm,
  flags: [],
  parts: [{ name: 'resolution', u: u_mm }],
});

export const streamed = (said: RunoutSaid): How => ({
  kind: 'streamed',
  gauge: { id: 'g', label: 'Indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } },
  stretch: { gauge: 'g', from: 0, to: 9 },
  settings: { kind: 'runout', mode: 'stations', stations: 8, ...said },
});

/** Backlash at equal stations, as a function of the angle of the tooth in mesh. */
export const backlashRound = (stations: number, at: (angle_deg: number) => number, U95 = 0.006): BacklashResult =>
  backlash(
    Array.from({ length: stations }, (_, station) => at((360 * station) / stations)),
    U95,
  );

export interface Stand {
  readonly build: Build & { readonly makeUp: MakeUp };
  readonly assembly: Assembly;
}

/** One trial on which these were measured. */
export function standOf(
  measurements: readonly (readonly [CheckId, BacklashResult | RunoutResult, How])[],
  more: Partial<MakeUp> = {},
): Stand {
  const described: Deed = { kind: 'described', makeUp: { ...makeUp, ...more } };
  const deeds = measurements.map(([check, result, how]) => measured('e3', check, result, how));
  const build = buildOf(notebook(described, limitsSet, trial, ...deeds));
  const [assembly] = build.assemblies;
  if (build.makeUp === undefined || assembly === undefined) throw new Error('the stand is empty');
  return { build: { ...build, makeUp: build.makeUp }, assembly };
}

export const cosine = (degrees: number): number => Math.cos((degrees * Math.PI) / 180);
