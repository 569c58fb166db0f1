import { z } from 'zod';
import type { Kind, Scene, Truth } from '../../../hardware-sim/worlds/world.ts';
import type { StreamItem } from '../../../src/shared/measuring/reading.ts';
import { measureItems } from '../../../src/shared/job/captures/measureItems.ts';
import { degrees, seconds } from '../../../src/shared/basics/quantity.ts';
import { noCase } from '../../../src/shared/basics/noCase.ts';

/** One figure that came back, beside what is true; `verdict` is against a limit that any small number keeps. */
export interface Compared {
  readonly of: Truth['of'];
  readonly truth: number | 'none';
  readonly value: number | { readonly none: string };
  readonly U95: number;
  readonly flags: readonly string[];
  readonly verdict: string;
}

export interface SceneMeasured {
  readonly figures: readonly Compared[];
  /** As many stations came back as there were. */
  readonly counted: boolean;
}

const numberOrNone = z.union([z.number(), z.object({ none: z.string() })]);
const doubtful = { flags: z.array(z.string()), U95_mm: numberOrNone };
const answerSchemas = {
  backlash: z.object({
    stations: z.array(z.object({ value_mm: numberOrNone, ...doubtful })),
    limits: z.record(z.string(), z.string()),
  }),
  runout: z.object({ tir_mm: numberOrNone, ...doubtful, limits: z.record(z.string(), z.string()) }),
  torque: z.object({
    running_Nm: numberOrNone,
    breakaway_Nm: numberOrNone,
    U95_Nm: numberOrNone,
    breakawayU95_Nm: numberOrNone,
    flags: z.array(z.string()),
    limits: z.record(z.string(), z.string()),
  }),
};

const items = ({ samples }: Scene): readonly StreamItem[] =>
  samples.map((sample) => {
    const t = seconds(sample.t);
    if ('pedal' in sample) return { t, pedal: sample.pedal };
    const { value, angle_deg } = sample;
    return { t, value, ...(angle_deg === undefined ? {} : { angle: degrees(angle_deg) }) };
  });

/** A limit that everything small keeps: `within` on what is no measurement then shows. */
const generous = 1e6;

/** Measures a scene with the code of `measure` on the command line and lays each answer beside its truth. */
export function measureScene(kind: Kind, scene: Scene): SceneMeasured {
  const { resolution, gaugeU, hysteresis } = scene.told;
  const { answer } = measureItems(items(scene), {
    kind,
    resolution,
    ...(gaugeU === undefined ? {} : { gaugeU }),
    ...(hysteresis === undefined ? {} : { hysteresis }),
    rule: 'simple',
    basis: 'running',
    limits: { max: generous, 'max-runout': generous },
  });
  switch (kind) {
    case 'backlash':
      return backlash(answer, scene);
    case 'runout':
      return runout(answer, scene);
    case 'torque':
      return torque(answer, scene);
    default:
      throw noCase(kind);
  }
}

function backlash(answer: unknown, { truths }: Scene): SceneMeasured {
  const { stations, limits } = answerSchemas.backlash.parse(answer);
  const verdict = limits['window'] ?? 'not-measured';
  const found = stations.map(({ value_mm, U95_mm, flags }) => ({ value: value_mm, U95: numberOr0(U95_mm), flags }));
  const figures = truths.map(({ of, value: truth }, index) => ({
    ...(found[index] ?? { value: { none: 'no-station' }, U95: 0, flags: [] }),
    of,
    truth,
    verdict,
  }));
  return { figures, counted: found.length === truths.length };
}

function runout(answer: unknown, { truths }: Scene): SceneMeasured {
  const { tir_mm, U95_mm, flags, limits } = answerSchemas.runout.parse(answer);
  const verdict = limits['runout'] ?? 'not-measured';
  const found = { value: tir_mm, U95: numberOr0(U95_mm), flags, verdict };
  return { figures: truths.map(({ of, value: truth }) => ({ ...found, of, truth })), counted: true };
}

function torque(answer: unknown, { truths }: Scene): SceneMeasured {
  const { running_Nm, breakaway_Nm, U95_Nm, breakawayU95_Nm, flags, limits } = answerSchemas.torque.parse(answer);
  const verdict = limits['torque'] ?? 'not-measured';
  const running = { value: running_Nm, U95: numberOr0(U95_Nm), flags, verdict };
  // The limit is one of running torque.
  const breakaway = { value: breakaway_Nm, U95: numberOr0(breakawayU95_Nm), flags, verdict: 'not-measured' };
  const figures = truths.map(({ of, value: truth }) => ({ ...(of === 'breakaway' ? breakaway : running), of, truth }));
  return { figures, counted: true };
}

const numberOr0 = (value: z.infer<typeof numberOrNone>): number => (typeof value === 'number' ? value : 0);
