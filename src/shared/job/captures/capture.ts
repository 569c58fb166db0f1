import type { Heard } from '../../gauges/heard.ts';
import { type BacklashEvent, finishBacklash, startBacklash, stepBacklash } from '../../measuring/backlash/capture.ts';
import type { StreamItem } from '../../measuring/reading.ts';
import { finishRunout, type RunoutEvent, startRunout, stepRunout } from '../../measuring/runout/runout.ts';
import { finishTorque, startTorque, stepTorque, type TorqueEvent } from '../../measuring/torque/torque.ts';
import { seconds } from '../../basics/quantity.ts';
import { type Dimension, unitNamed } from '../../basics/units.ts';
import type { GaugeSeen } from '../records/gauge.ts';
import type { CaptureSettings, MeasuredResult } from '../records/measurement.ts';
import { fail, ok, type Problem, type Result } from '../../basics/result.ts';
import { gaugeFigures } from './gaugeFigures.ts';
import { backlashResult, runoutResult, torqueResult } from './results.ts';
import { stemmed, stemmedEvents } from './stem.ts';
import { isPullScale, measuredInside } from './torqueScale.ts';
import { noCase } from '../../basics/noCase.ts';

export type CaptureEvent = BacklashEvent | RunoutEvent | TorqueEvent;

/**
 * One measurement being taken. The same capture runs live on the screen, in the bench when it records, in
 * replay and on the command line: what is recorded is what was seen.
 */
export interface Capture {
  step(item: StreamItem): readonly CaptureEvent[];
  /**
   * The figures once no more readings come. For backlash the last rest then counts as over; while readings still
   * come, what they give so far is in the events of `step`.
   */
  finish(): MeasuredResult;
}

/** What a measurement reads: a length from an indicator, a torque from a torque gauge. */
const dimensionOf: Record<CaptureSettings['kind'], Dimension> = {
  backlash: 'length',
  runout: 'length',
  torque: 'torque',
};

/** Starts a measurement with this gauge. A gauge that measures something else is refused. */
export function startCapture(settings: CaptureSettings, gauge: GaugeSeen): Result<Capture> {
  const wanted = dimensionOf[settings.kind];
  if (isPullScale(gauge) && wanted === 'torque') {
    if (gauge.arm === undefined) return fail(noArm(gauge));
  } else if (unitNamed(gauge.resolution.unit)?.dimension !== wanted) return fail(wrongGauge(gauge, settings));
  const figures = gaugeFigures(gauge);
  switch (settings.kind) {
    case 'backlash': {
      const capture = startBacklash({
        ...figures.length,
        nextBy: settings.nextBy,
        ...(settings.stations === undefined ? {} : { stations: settings.stations }),
      });
      const { basis, stem } = settings;
      return ok({
        step: (item) => stemmedEvents(stepBacklash(capture, item), basis, stem),
        finish: () => backlashResult(stemmed(finishBacklash(capture), basis, stem), basis),
      });
    }
    case 'runout': {
      const capture = startRunout({
        ...figures.length,
        mode: settings.mode,
        ...(settings.stations === undefined ? {} : { stations: settings.stations }),
      });
      return ok({ step: (item) => stepRunout(capture, item), finish: () => runoutResult(finishRunout(capture)) });
    }
    case 'torque': {
      const capture = startTorque(figures.torque);
      return ok({
        step: (item) => stepTorque(capture, item),
        finish: () => torqueResult(finishTorque(capture), settings.basis),
      });
    }
    default:
      throw noCase(settings);
  }
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
