import { measureBacklash } from '../../measuring/backlash/capture.ts';
import { isPress, type StreamItem } from '../../measuring/reading.ts';
import { type Arm, armShare } from '../../measuring/torque/pullScale.ts';
import { finishRunout, startRunout, stepRunout } from '../../measuring/runout/runout.ts';
import { finishTorque, startTorque, stepTorque } from '../../measuring/torque/torque.ts';
import { judge, type DecisionRule, type Limit, type Verdict } from '../../measuring/uncertainty/verdict.ts';
import { mm, newtonMetres } from '../../basics/quantity.ts';
import type { BacklashResult, RunoutResult, TorqueResult } from '../records/measurement.ts';
import { isNone, type OrNone } from '../../basics/result.ts';
import { backlashResult, runoutResult, torqueResult } from './results.ts';
import { retimedAll } from './retimed.ts';
import { stepOf } from './stepOf.ts';
import { noCase } from '../../basics/noCase.ts';

/** What the command line asks for, in the units used inside. */
export interface MeasureSettings {
  readonly kind: 'backlash' | 'runout' | 'torque';
  readonly resolution?: number;
  /** Standard uncertainty of the gauge. */
  readonly gaugeU?: number;
  /** Stated hysteresis of an indicator, full width, mm; one step of the display is assumed where it is not stated. */
  readonly hysteresis?: number;
  /** Arm of a pull scale whose readings were a force, with its standard uncertainty. */
  readonly arm?: Arm;
  readonly rule: DecisionRule;
  readonly basis: 'running' | 'starting';
  /** min, max, max-variation, max-runout, as far as they were given. */
  readonly limits: Readonly<Record<string, number>>;
}

interface MeasureAnswer {
  /** JSON-ready, keys with SI units. */
  readonly answer: unknown;
  /** False when not one figure could be made of the readings. */
  readonly measured: boolean;
}

/** Measures a recorded stream with the code that runs live, and judges it. */
export function measureItems(arrived: readonly StreamItem[], settings: MeasureSettings): MeasureAnswer {
  const items = retimedAll(arrived);
  const resolution = settings.resolution ?? stepOf(items.flatMap((item) => (isPress(item) ? [] : [item.value])));
  switch (settings.kind) {
    case 'backlash':
      return backlashAnswer(items, settings, resolution);
    case 'runout':
      return runoutAnswer(items, settings, resolution);
    case 'torque':
      return torqueAnswer(items, settings, resolution);
    default:
      throw noCase(settings.kind);
  }
}

function backlashAnswer(items: readonly StreamItem[], settings: MeasureSettings, resolution: number): MeasureAnswer {
  const gauge = {
    resolution: mm(resolution),
    ...(settings.gaugeU === undefined ? {} : { gaugeU: mm(settings.gaugeU) }),
    ...(settings.hysteresis === undefined ? {} : { hysteresis: mm(settings.hysteresis) }),
  };
  const measured = measureBacklash(items, { ...gauge, nextBy: 'itself' });
  const {
    kind: _kind,
    basis: _basis,
    stations,
    ...together
  } = backlashResult(measured, {
    direction: 'along-rotation',
    at: 'heel',
  });
  const window = stations.map((station) => ({ value: station.value_mm, U95: numberOr0(station.U95_mm) }));
  const judged = judgeAll(settings, {
    window: { values: window, limit: ends(settings.limits) },
    variation: {
      values: [{ value: together.variation_mm, U95: numberOr0(together.variationU95_mm) }],
      limit: upper(settings.limits['max-variation']),
    },
  });
  const answer = { stations: stations.map(plainStation), ...together, ...judged };
  return { answer, measured: stations.some((station) => !isNone(station.value_mm)) };
}

const plainStation = ({ value_mm, rocks, sd_mm, u_mm, U95_mm, flags, why }: BacklashResult['stations'][number]) => ({
  value_mm,
  rocks,
  sd_mm,
  u_mm,
  U95_mm,
  flags,
  ...(why === undefined ? {} : { why }),
});

function runoutAnswer(items: readonly StreamItem[], settings: MeasureSettings, resolution: number): MeasureAnswer {
  const capture = startRunout({
    resolution: mm(resolution),
    mode: 'auto',
    ...(settings.hysteresis === undefined ? {} : { hysteresis: mm(settings.hysteresis) }),
    ...(settings.gaugeU === undefined ? {} : { gaugeU: mm(settings.gaugeU) }),
  });
  for (const item of items) stepRunout(capture, item);
  const { kind: _kind, parts: _parts, ...result }: RunoutResult = runoutResult(finishRunout(capture));
  const limit = upper(settings.limits['max-runout'] ?? settings.limits['max']);
  const judged = judgeAll(settings, {
    runout: { values: [{ value: result.tir_mm, U95: numberOr0(result.U95_mm) }], limit },
  });
  return { answer: { ...result, ...judged }, measured: !isNone(result.tir_mm) };
}

function torqueAnswer(items: readonly StreamItem[], settings: MeasureSettings, resolution: number): MeasureAnswer {
  const capture = startTorque({
    resolution: newtonMetres(resolution),
    ...(settings.gaugeU === undefined ? {} : { gaugeU: newtonMetres(settings.gaugeU) }),
    ...(settings.arm === undefined ? {} : { armU_share: armShare(settings.arm) }),
  });
  for (const item of items) stepTorque(capture, item);
  const basis = { basis: settings.basis, seal: 'out', bearings: 'new' } as const;
  const {
    kind: _kind,
    parts: _parts,
    breakawayParts: _breakawayParts,
    basis: _basis,
    ...result
  }: TorqueResult = torqueResult(finishTorque(capture), basis);
  const starting = settings.basis === 'starting';
  const value = starting ? result.breakaway_Nm : result.running_Nm;
  const U95 = numberOr0(starting ? result.breakawayU95_Nm : result.U95_Nm);
  const judged = judgeAll(settings, {
    torque: { values: [{ value, U95 }], limit: ends(settings.limits) },
  });
  return { answer: { ...result, ...judged }, measured: !isNone(result.running_Nm) };
}

interface ToJudge {
  readonly values: readonly { readonly value: OrNone<number>; readonly U95: number }[];
  readonly limit: Limit | undefined;
}

const severity: readonly Verdict[] = ['outside', 'too-close', 'not-measured', 'within'];

/** The verdict of each limit that was given, the worst value deciding, and the names of those too close to call. */
function judgeAll(settings: MeasureSettings, named: Readonly<Record<string, ToJudge>>) {
  const limits: Record<string, Verdict> = {};
  const closeCalls: string[] = [];
  for (const [name, { values, limit }] of Object.entries(named)) {
    if (limit === undefined) continue;
    const judged = values.map(({ value, U95 }) => judge(value, U95, limit, settings.rule));
    limits[name] = severity.find((verdict) => judged.some((one) => one.verdict === verdict)) ?? 'not-measured';
    if (judged.some((one) => one.closeCall)) closeCalls.push(name);
  }
  return { limits, closeCalls };
}

function ends({ min, max }: Readonly<Record<string, number>>): Limit | undefined {
  if (min === undefined && max === undefined) return undefined;
  return { ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) };
}

const upper = (max: number | undefined): Limit | undefined => (max === undefined ? undefined : { max });
const numberOr0 = (value: OrNone<number> | undefined): number => (typeof value === 'number' ? value : 0);
