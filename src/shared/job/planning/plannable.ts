import { describeSet, type MeshModel } from '../../axle/mesh/meshModel.ts';
import { type Assembly, assemblyName, type Build } from '../records/build.ts';
import type { BacklashBasis } from '../../basics/recorded.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import { possible } from '../../axle/makeUpDoubts.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { setInputOf } from '../../axle/setOf.ts';
import { sameBacklashBasis } from '../checks/judge.ts';
import type { PlanInput, TrialSeen } from '../../axle/plan/input.ts';
import { stepsOf } from './assumed.ts';
import { missing, type Why } from './missing.ts';
import { depthPlaceOf, type Moved, movedBetween } from './positions.ts';
import { completeAssemblies, seenIn } from './seen.ts';
import { targetOf, windowOf } from './window.ts';

/** What the plan is asked about a build, and what the person should know of how that came about. */
export interface Plannable {
  readonly input: PlanInput;
  /** The trials that count, in the order of the input. */
  readonly trials: readonly Assembly[];
  readonly notes: readonly string[];
}

type Described = Build & { readonly makeUp: MakeUp };

/** The plan's question about a build, or what is missing for it. */
export function plannableOf(build: Build): Result<Plannable, Why> {
  const { makeUp } = build;
  if (makeUp === undefined) return missing('not-described', 'The axle is not described yet.', 'Describe it.');
  const checked = possible(makeUp);
  if (!checked.ok) return checked;
  const { outerDiameter_mm } = makeUp;
  if (outerDiameter_mm === undefined) {
    return missing('no-diameter', 'The ring gear’s outer diameter is not known.', 'Enter it under Axle.');
  }
  const complete = completeAssemblies(build);
  const last = complete.at(-1);
  const basis = last === undefined ? undefined : seenIn(last)?.basis;
  if (basis === undefined) {
    const remedy = 'Take the backlash and draw both marks.';
    return missing('no-trial', 'No trial has its backlash and both marks yet.', remedy);
  }
  const window = windowOf(build, makeUp, basis);
  if (!window.ok) return window;
  const target = targetOf(build, makeUp, basis);
  if (!target.ok) return target;
  const set = setInputOf(makeUp, outerDiameter_mm);
  const model = describeSet(set);
  if (!model.ok) return fail({ ...model.problem, kind: 'no-such-set' as const });
  const seen = trialsSeen({ ...build, makeUp }, complete, model.value, basis);
  if (!seen.ok) return seen;
  return ok({
    trials: seen.value.map(({ trial }) => trial),
    notes: [
      ...window.value.notes,
      ...target.value.notes,
      ...leftOut(complete, seen.value, basis),
      ...inferredIn(seen.value),
      ...finalIn(seen.value),
    ],
    input: {
      set: { ...set, driveFlank: makeUp.driveFlank },
      backlashBasis: basis,
      limits: { backlash_mm: window.value.ends },
      target: target.value.target,
      shimStep_mm: stepsOf(makeUp),
      places: { depth: depthPlaceOf(makeUp), sides: makeUp.caseAdjustment },
      trials: seen.value.map(({ seen }) => seen),
    },
  });
}

interface Counted {
  readonly trial: Assembly;
  readonly seen: TrialSeen;
  readonly inferred: boolean;
}

const nowhere: Moved = { pinionOut: 0, ringAway: 0, inferred: false };

/** Every trial that can be placed against the first one. The last one must be: it is what the plan starts from. */
function trialsSeen(
  build: Described,
  complete: readonly Assembly[],
  model: MeshModel,
  basis: BacklashBasis,
): Result<readonly Counted[], 'no-pack'> {
  const mean = (one: Assembly): number | undefined => seenIn(one)?.backlash.mean_mm;
  const counted: Counted[] = [];
  for (const trial of complete) {
    const read = seenIn(trial);
    if (read === undefined || !sameBacklashBasis(read.basis, basis)) continue;
    const [first] = counted;
    const moved = first === undefined ? nowhere : movedBetween(build, first.trial, trial, model, mean);
    if (typeof moved === 'string') {
      if (trial === complete.at(-1)) return noPack(trial);
      continue;
    }
    const { backlash, pattern } = read;
    const seen = {
      pinionOut_mm: moved.pinionOut,
      ringAway_mm: moved.ringAway,
      backlash,
      pattern,
      looked: trial.lookedAt,
    };
    counted.push({ trial, seen, inferred: moved.inferred });
  }
  return ok(counted);
}

const leftOut = (complete: readonly Assembly[], counted: readonly Counted[], basis: BacklashBasis): readonly string[] =>
  complete
    .filter((trial) => !counted.some((one) => one.trial === trial))
    .map((trial) => {
      const felt = seenIn(trial)?.basis;
      return felt !== undefined && sameBacklashBasis(felt, basis)
        ? `${assemblyName(trial)} is left out: its packs were not measured.`
        : `${assemblyName(trial)} is left out: its backlash was felt another way than the last one.`;
    });

const inferredIn = (counted: readonly Counted[]): readonly string[] =>
  counted
    .filter(({ inferred }) => inferred)
    .map(
      ({ trial }) =>
        `Where the ring gear stood in ${assemblyName(trial).toLowerCase()} is worked out from its backlash: its notches are on no swap card.`,
    );

/** A shim is read off in the trials and proved in the final assembly, which runs on other bearings. */
function finalIn(counted: readonly Counted[]): readonly string[] {
  const before = counted.some(({ trial }) => trial.phase === 'trial');
  return before && counted.some(({ trial }) => trial.phase === 'final')
    ? [
        'The final assembly runs on its good bearings and under preload: the same packs may stand a few hundredths of a millimetre elsewhere than in the trials.',
      ]
    : [];
}

const noPack = (trial: Assembly): Result<never, 'no-pack'> =>
  missing(
    'no-pack',
    `The packs of ${assemblyName(trial).toLowerCase()} or of the trial before were not measured, so nobody can tell how far things moved.`,
    'Enter the shims by place.',
  );
