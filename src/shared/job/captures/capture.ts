import type { Heard } from '../../gauges/heard.ts';
import type { BacklashEvent } from '../../measuring/backlash/capture.ts';
import type { StationMeasured } from '../../measuring/backlash/measured.ts';
import { finishEndPlay, startEndPlay, stepEndPlay } from '../../measuring/endPlay.ts';
import type { StreamItem } from '../../measuring/reading.ts';
import { finishRunout, lastStation, type RunoutEvent, runoutInParts } from '../../measuring/runout/runout.ts';
import { finishSpread, type SpreadEvent, startSpread, stepSpread } from '../../measuring/spread.ts';
import { finishTorque, startTorque, stepTorque, type TorqueEvent } from '../../measuring/torque/torque.ts';
import { seconds } from '../../basics/quantity.ts';
import { type Dimension, unitNamed } from '../../basics/units.ts';
import type { GaugeSeen } from '../records/gauge.ts';
import type { CaptureSettings, MeasuredResult } from '../records/measurement.ts';
import { fail, isNone, ok, type Problem, type Result } from '../../basics/result.ts';
import { backlashInParts } from './backlashInParts.ts';
import { gaugeFigures } from './gaugeFigures.ts';
import { backlashResult, playResult, runoutResult, spreadResult, torqueResult } from './results.ts';
import { retimed } from './retimed.ts';
import { stemmed, stemmedEvents } from './stem.ts';
import { isPullScale, measuredInside } from './torqueScale.ts';
import { noCase } from '../../basics/noCase.ts';

export type CaptureEvent = BacklashEvent | RunoutEvent | TorqueEvent | SpreadEvent;

/**
 * One measurement being taken. The same capture runs live on the screen, in the bench when it records, in
 * replay and on the command line: what is recorded is what was seen.
 */
export interface Capture {
  step(item: StreamItem): readonly CaptureEvent[];
  /**
   * The figures while readings still come; undefined for backlash and play, where they are in the events of `step`. Readings whose
   * time is not known yet are not in them.
   */
  soFar(): MeasuredResult | undefined;
  /** The figures once no more readings come. For backlash the last rest then counts as over. */
  finish(): MeasuredResult;
  /**
   * Nobody listens from here on, and nobody knows what the hand does meanwhile. Stations that are done stay; what is at
   * work begins anew with the next reading. Only a backlash, and a runout at stations, has parts that stay.
   */
  breakOff(): void;
  /** Backlash: the stations that would stay if it were broken off now, as the capture was given them or took them. */
  taken(): readonly StationMeasured[];
  /** Whether there is something that somebody would miss: a station that is done, a number of a turn or a pull. */
  isBegun(): boolean;
}

/** A turn stands or falls as a whole: a break in it leaves the readings on both sides of one turn. */
const inOnePiece: Pick<Capture, 'breakOff' | 'taken'> = { breakOff: () => undefined, taken: () => [] };

/** A gauge that just stands there has shown the first station already: nobody would miss it. */
const fewestMissed = 2;

/** What a measurement reads: a length from an indicator, a torque from a torque gauge. */
const dimensionOf: Record<CaptureSettings['kind'], Dimension> = {
  backlash: 'length',
  runout: 'length',
  torque: 'torque',
  play: 'length',
  spread: 'length',
};

/**
 * Starts a measurement with this gauge. A gauge that measures something else is refused.
 * @param before stations of a backlash that was broken off, from {@link Capture.taken}; it goes on after them.
 */
export function startCapture(
  settings: CaptureSettings,
  gauge: GaugeSeen,
  before: readonly StationMeasured[] = [],
): Result<Capture> {
  const wanted = dimensionOf[settings.kind];
  if (isPullScale(gauge) && wanted === 'torque') {
    if (gauge.arm === undefined) return fail(noArm(gauge));
  } else if (unitNamed(gauge.resolution.unit)?.dimension !== wanted) return fail(wrongGauge(gauge, settings));
  const figures = gaugeFigures(gauge);
  switch (settings.kind) {
    case 'backlash':
      return ok(ofBacklash(settings, figures, before));
    case 'runout':
      return ok(ofRunout(settings, figures));
    case 'torque':
      return ok(ofTorque(settings, figures));
    case 'play':
      return ok(ofPlay(figures));
    case 'spread':
      return ok(ofSpread(figures));
    default:
      throw noCase(settings);
  }
}

type Figures = ReturnType<typeof gaugeFigures>;
type SettingsOf<Kind extends CaptureSettings['kind']> = Extract<CaptureSettings, { readonly kind: Kind }>;

function ofBacklash(
  { basis, stem, nextBy, stations }: SettingsOf<'backlash'>,
  { length }: Figures,
  before: readonly StationMeasured[],
): Capture {
  const wanted = { ...length, nextBy, ...(stations === undefined ? {} : { stations }) };
  const capture = backlashInParts(wanted, before);
  const { step, end } = retimed((item) => stemmedEvents(capture.step(item), basis, stem));
  const finish = (): MeasuredResult => backlashResult(stemmed(capture.finish(), basis, stem), basis);
  return {
    step,
    soFar: () => undefined,
    finish: () => (end(), finish()),
    breakOff: () => (end(), capture.breakOff()),
    taken: () => capture.taken(),
    isBegun: () => capture.taken().length > 0,
  };
}

function ofRunout({ mode, stations }: SettingsOf<'runout'>, { length }: Figures): Capture {
  const wanted = { ...length, mode, ...(stations === undefined ? {} : { stations }) };
  const { capture, ...parts } = runoutInParts(wanted);
  const { step, end } = retimed((item) => parts.step(item));
  const measured = () => finishRunout(capture);
  return {
    step,
    soFar: () => runoutResult(measured()),
    finish: () => (end(), runoutResult(measured())),
    breakOff: () => (end(), parts.breakOff()),
    taken: () => [],
    isBegun: () =>
      mode === 'stations' ? (lastStation(capture)?.number ?? 0) >= fewestMissed : !isNone(measured().tir),
  };
}

function ofTorque({ basis }: SettingsOf<'torque'>, { torque }: Figures): Capture {
  const capture = startTorque(torque);
  const { step, end } = retimed((item) => stepTorque(capture, item));
  const soFar = (): MeasuredResult => torqueResult(finishTorque(capture), basis);
  const isBegun = (): boolean => {
    const { running, breakaway } = finishTorque(capture);
    return !isNone(basis.basis === 'starting' ? breakaway : running);
  };
  return { ...inOnePiece, step, soFar, finish: () => (end(), soFar()), isBegun };
}

function ofPlay({ length }: Figures): Capture {
  const capture = startEndPlay(length);
  const { step, end } = retimed((item) => stepEndPlay(capture, item));
  const finish = (): MeasuredResult => playResult(finishEndPlay(capture));
  return { ...inOnePiece, step, soFar: () => undefined, finish: () => (end(), finish()), isBegun: () => false };
}

function ofSpread({ length }: Figures): Capture {
  const capture = startSpread(length);
  const { step, end } = retimed((item) => stepSpread(capture, item));
  const soFar = (): MeasuredResult => spreadResult(finishSpread(capture));
  return { ...inOnePiece, step, soFar, finish: () => (end(), soFar()), isBegun: () => false };
}

/**
 * What a measurement makes of one thing heard: a reading in the unit used inside, a press, or nothing (a line
 * that could not be read). A reading in a unit of something else ends the measurement, because then the gauge
 * is not what its record says.
 */
export function streamItem(
  heard: Heard,
  kind: CaptureSettings['kind'],
  gauge: Pick<GaugeSeen, 'resolution' | 'arm'>,
): Result<StreamItem | undefined> {
  const t = seconds(heard.t);
  if ('press' in heard) return ok({ t, pedal: heard.press });
  if ('none' in heard) return ok(undefined);
  const unit = unitNamed(heard.unit);
  const value = unit === undefined ? undefined : measuredInside(heard.value, unit, gauge);
  const read = unit?.dimension === 'force' ? 'torque' : unit?.dimension;
  return value === undefined || read !== dimensionOf[kind] ? fail(wrongUnit(heard.unit, kind)) : ok({ t, value });
}

const wrongGauge = (gauge: GaugeSeen, settings: CaptureSettings): Problem => ({
  kind: 'wrong-gauge',
  field: 'gauge',
  sentence: `${gauge.label} does not measure a ${dimensionOf[settings.kind]}, and ${settings.kind} needs one.`,
  remedy: 'Choose another gauge, or correct the unit of its resolution.',
});

const noArm = (gauge: GaugeSeen): Problem => ({
  kind: 'no-arm',
  field: 'gauge.arm',
  sentence: `${gauge.label} reads a force, and no arm is entered that makes a torque of it.`,
  remedy: 'Enter its arm with the gauge: from the axis of the pinion to the middle of the cord.',
});

const wrongUnit = (unit: string, kind: CaptureSettings['kind']): Problem => ({
  kind: 'wrong-unit',
  field: 'unit',
  sentence: `The gauge sends ${unit}, which is no ${dimensionOf[kind]}.`,
  remedy: 'Check the unit set at the gauge.',
});
