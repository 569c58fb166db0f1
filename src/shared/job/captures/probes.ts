import { seconds } from '../../basics/quantity.ts';
import type { StreamItem } from '../../measuring/reading.ts';
import { mm, newtonMetres } from '../../basics/quantity.ts';
import type { GaugeSeen } from '../records/gauge.ts';
import type { CaptureSettings, MeasuredResult } from '../records/measurement.ts';
import { startCapture } from './capture.ts';

/** Readings a second of every probe. */
const rate = 20;

interface Probe {
  readonly settings: CaptureSettings;
  readonly gauge: GaugeSeen;
  readonly items: readonly StreamItem[];
}

/**
 * What the measuring of this program makes of three short made-up streams: by it two programs are told apart that measure
 * otherwise, without either knowing the other. Nobody judges these figures; only whether they are the same counts.
 */
export const probed = (): readonly (MeasuredResult | string)[] =>
  [backlashProbe(), runoutProbe(), torqueProbe()].map(({ settings, gauge, items }) => {
    const capture = startCapture(settings, gauge);
    if (!capture.ok) return capture.problem.kind;
    for (const item of items) capture.value.step(item);
    return capture.value.finish();
  });

/** A small unsteadiness that is the same everywhere: a step of a linear congruential row, −0.5 to 0.5. */
const unsteady = (index: number): number => (((index * 1_103_515_245 + 12_345) >>> 8) & 0xff) / 255 - 0.5;

const indicator: GaugeSeen = {
  id: 'probe',
  label: 'Probe',
  kind: 'indicator',
  resolution: { value: 0.001, unit: 'mm' },
  statedError: { value: 0.003, unit: 'mm' },
};

const lengths = (value: (t: number) => number, lasts_s: number): readonly StreamItem[] =>
  Array.from({ length: lasts_s * rate }, (_, index) => ({
    t: seconds(index / rate),
    value: mm(Math.round((value(index / rate) + 0.002 * unsteady(index)) * 1000) / 1000),
  }));

/** Two stations of six rocks, 0.2 and 0.23 mm, with the stem lifted between and after. */
function backlashProbe(): Probe {
  const station_s = 20;
  const value = (t: number): number => {
    const within = t % station_s;
    if (within > station_s - 2) return 4;
    return Math.floor(within / 1.5) % 2 === 0 ? 0 : t < station_s ? 0.2 : 0.23;
  };
  const basis = { direction: 'along-rotation', at: 'heel' } as const;
  return {
    settings: { kind: 'backlash', basis, nextBy: 'itself' },
    gauge: indicator,
    items: lengths(value, 2 * station_s),
  };
}

/** Two turns of eight seconds and a bit, 0.04 mm once a turn. */
function runoutProbe(): Probe {
  const value = (t: number): number => 1 + 0.02 * Math.sin((2 * Math.PI * Math.max(0, t - 1)) / 8);
  return { settings: { kind: 'runout', mode: 'continuous' }, gauge: indicator, items: lengths(value, 20) };
}

/** A pull of twelve seconds at 2 N·m that breaks away at 2.6, between rests at nothing. */
function torqueProbe(): Probe {
  const value = (t: number): number => {
    if (t < 2 || t > 14) return 0;
    return t < 2.2 ? 2.6 : 2 + 0.1 * Math.sin((2 * Math.PI * t) / 3);
  };
  const items = Array.from({ length: 16 * rate }, (_, index) => ({
    t: seconds(index / rate),
    value: newtonMetres(Math.round((value(index / rate) + 0.02 * unsteady(index)) * 100) / 100),
  }));
  const gauge: GaugeSeen = { id: 'probe', label: 'Probe', kind: 'torque', resolution: { value: 0.01, unit: 'N.m' } };
  const basis = { basis: 'running', seal: 'in', bearings: 'new' } as const;
  return { settings: { kind: 'torque', basis }, gauge, items };
}
