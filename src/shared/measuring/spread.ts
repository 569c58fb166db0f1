import { type Length, mm, type Time } from '../basics/quantity.ts';
import { none, type OrNone } from '../basics/result.ts';
import { mean, sd } from '../basics/statistics.ts';
import { isPress, type StreamItem } from './reading.ts';
import { looksBack_s, standsStill } from './standstill.ts';
import { combine, resolutionOfDifference, type UncertaintyPart } from './uncertainty/uncertainty.ts';

/*
 * How far something spreads under load: a case under the preload of its bearings, read by an indicator across its bores. Two
 * rests, one without the load and one under it, which the person tells apart by a press at each; minutes and a torque wrench lie
 * between them. Nothing is pushed to and fro, so nothing repeats: the doubt is that of two readings of one indicator that moves
 * one way, and that its base stood for as long as it took is for the person to see to.
 */

export interface SpreadSettings {
  readonly resolution: Length;
  /** Standard uncertainty of one reading of the gauge. */
  readonly gaugeU?: Length;
}

export interface SpreadCapture {
  readonly settings: SpreadSettings;
  /** Readings of the last moments, oldest first. */
  recent: readonly { readonly t: Time; readonly value: number }[];
  /** A press waits for the gauge to stand. */
  wanted: boolean;
  rests: readonly Rest[];
}

interface Rest {
  readonly t: Time;
  readonly level: Length;
  /** Standard uncertainty of the level from the noise in it. */
  readonly u: number;
}

export type SpreadEvent =
  | { readonly kind: 'spread-rest'; readonly t: Time; readonly number: 1 | 2; readonly level: Length }
  | { readonly kind: 'all-done'; readonly station: 1; readonly t: Time }
  | { readonly kind: 'again'; readonly t: Time };

export interface SpreadMeasured {
  /** From the rest without load to the rest under it, whichever way the indicator counts. */
  readonly value: OrNone<Length, 'too-few'>;
  readonly u: Length;
  readonly U95: Length;
  readonly parts: readonly UncertaintyPart[];
}

/** Begins. */
export const startSpread = (settings: SpreadSettings): SpreadCapture => ({
  settings,
  recent: [],
  wanted: false,
  rests: [],
});

const nothing: readonly SpreadEvent[] = [];

/** Takes in one reading or press. A press counts at once where the gauge stands, else as soon as it does. */
export function stepSpread(capture: SpreadCapture, item: StreamItem): readonly SpreadEvent[] {
  if (capture.rests.length >= 2 && !(isPress(item) && item.pedal === 'again')) return nothing;
  if (!isPress(item)) capture.recent = [...capture.recent.filter(({ t }) => item.t - t <= looksBack_s), item];
  else if (item.pedal === 'again') {
    Object.assign(capture, startSpread(capture.settings));
    return [{ kind: 'again', t: item.t }];
  } else capture.wanted = true;
  return capture.wanted && standsNow(capture) ? rest(capture) : nothing;
}

/** A gauge that sends at a press has one reading and stands, because it was told to. */
const standsNow = ({ recent, settings }: SpreadCapture): boolean =>
  recent.length > 0 && standsStill(recent, settings.resolution);

/** A rest is read over this long, s. */
const read_s = 0.6;

function rest(capture: SpreadCapture): readonly SpreadEvent[] {
  const t = capture.recent.at(-1)?.t;
  if (t === undefined) return nothing;
  const values = capture.recent.filter((one) => t - one.t <= read_s).map(({ value }) => value);
  const u = values.length < 2 ? 0 : sd(values) / Math.sqrt(values.length);
  const level = mm(mean(values));
  capture.rests = [...capture.rests, { t, level, u }];
  capture.wanted = false;
  capture.recent = [];
  const isLast = capture.rests.length === 2;
  return [
    { kind: 'spread-rest', t, number: isLast ? 2 : 1, level },
    ...(isLast ? [{ kind: 'all-done', station: 1, t } as const] : []),
  ];
}

/** Ends it: two rests make a number, one makes none. */
export function finishSpread({ rests, settings }: SpreadCapture): SpreadMeasured {
  const [before, under] = rests;
  if (before === undefined || under === undefined) return { value: none('too-few'), u: mm(0), U95: mm(0), parts: [] };
  const { u, U95, parts } = combine([
    { name: 'resolution', u: resolutionOfDifference(settings.resolution) },
    ...(settings.gaugeU === undefined ? [] : [{ name: 'gauge', u: Math.SQRT2 * settings.gaugeU }]),
    { name: 'readings at the two rests', u: Math.hypot(before.u, under.u) },
  ]);
  return { value: mm(Math.abs(under.level - before.level)), u: mm(u), U95: mm(U95), parts };
}
