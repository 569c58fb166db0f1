import { sleeveAdvice, type SleeveStep } from '../../../../shared/measuring/torque/crushSleeve.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { Assembly } from '../../../../shared/job/records/build.ts';
import type { TorqueResult } from '../../../../shared/job/records/measurement.ts';
import { giveCue } from '../../../cues/give.ts';
import { holdRun, restartRun } from '../../../live/run.ts';
import { recordSleeveStep, writeDeed } from '../../../stores/notebook.ts';
import { type NutDraft, nutTyped, readNut } from './NutFields.tsx';
import { lastStepOf, type SleeveAim, stepFrom, stepsOf } from './steps.ts';
import { standCue, standTitle } from './words.ts';

interface SleeveNow {
  readonly assembly: Assembly;
  readonly aim: SleeveAim | undefined;
  readonly nut: NutDraft;
  readonly units: UnitSystem;
  /** What was read since the last step. */
  readonly result: TorqueResult | undefined;
  /** That reading says that the sleeve is crushed too far, or the nut at its largest torque. */
  readonly isPassed: boolean;
  /** Whether the nut is to be turned further. */
  readonly onKept: (goesOn: boolean) => void;
}

/** What can be done with a reading on a sleeve: keep it as a step, or put a new sleeve in. */
export function sleeveWays({ assembly, aim, nut, units, result, isPassed, onKept }: SleeveNow) {
  return {
    keep: async (): Promise<void> => {
      const step = await keepRead(assembly.id, result, nut);
      if (step === undefined) return;
      const { stand } = sleeveAdvice([...stepsOf(assembly), step], aim?.target);
      const words = `${standTitle[stand]}, ${showText(step.running, 'torque', units)}`;
      giveCue(standCue[stand], words, words);
      onKept(stand === 'below');
    },
    replace: async (): Promise<void> => {
      // The reading that says the sleeve is wasted belongs to it, kept as a step or not.
      if (isPassed && (await keepRead(assembly.id, result, nut)) === undefined) return;
      if (await writeDeed({ kind: 'sleeve-wasted', assembly: assembly.id })) restartRun();
      onKept(false);
    },
  };
}

/** Writes down what was read as a step, and listens anew: it says nothing of the next step, nor of another sleeve. */
async function keepRead(
  assembly: string,
  result: TorqueResult | undefined,
  nut: NutDraft,
): Promise<SleeveStep | undefined> {
  const step = result === undefined ? undefined : stepFrom(result, readNut(nut));
  const taken = step === undefined ? undefined : holdRun();
  if (taken === undefined) return undefined;
  // At once: the next pull may begin before the bench has answered.
  restartRun();
  const kept = await recordSleeveStep({ assembly, ...taken, ...nutTyped(nut) });
  return kept ? step : undefined;
}

/** The bearings were not seated, or the reading was of something else: the step is struck through. */
export async function dropStep(assembly: Assembly): Promise<void> {
  const entry = lastStepOf(assembly);
  if (entry !== undefined && (await writeDeed({ kind: 'struck', entry }))) restartRun();
}
