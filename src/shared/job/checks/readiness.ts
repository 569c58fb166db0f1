import {
  type Assembly,
  assemblyName,
  type Build,
  currentAssembly,
  waitingSwap,
  latest,
  type Measurement,
  type Override,
  overrideOf,
} from '../records/build.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import { type Check, checks, fitted, needOf } from './checks.ts';
import { completeAssemblies, setWithShims } from '../planning/seen.ts';
import type { SpecSheet } from '../records/specSheet.ts';
import { type CheckJudged, judgeCheck } from './judge.ts';
import { sheetFor } from './limitChanges.ts';

export type CheckState = CheckJudged & {
  readonly check: Check;
  readonly needed: 'required' | 'optional';
  /** The measurement that counts here. */
  readonly measurement?: Measurement;
  /** Name of the earlier trial it was taken on, where it carries over. */
  readonly carriedFrom?: string;
  readonly override?: Override;
  /** Whether this keeps the gate shut: required, not settled and not overridden with a reason. */
  readonly inTheWay: boolean;
};

/** The gate an assembly leads to: a trial is made ready to paint, the final one ready to close; what is recorded before has none. */
type Gate = 'ready-to-paint' | 'ready-to-close';

export interface Readiness {
  readonly gate: Gate | undefined;
  readonly ready: boolean;
  readonly states: readonly CheckState[];
  readonly inTheWay: readonly CheckState[];
  /** Close calls warn and do not block under the simple rule. */
  readonly closeCalls: readonly CheckState[];
  /** Measured, with no limit entered to hold them against. They are recorded and stand in nobody's way. */
  readonly withoutLimit: readonly CheckState[];
}

export const gateOf = (assembly: Pick<Assembly, 'phase'>): Gate | undefined =>
  ({ 'as-found': undefined, stripping: undefined, trial: 'ready-to-paint', final: 'ready-to-close' } as const)[
    assembly.phase
  ];

/** Where an assembly stands, check by check, and what keeps its gate shut. */
export function readinessOf(build: Build & { readonly makeUp: MakeUp }, assembly: Assembly): Readiness {
  const gate = gateOf(assembly);
  const states = checksIn(build, assembly).map((check) => stateOf(build, assembly, check, gate));
  const inTheWay = states.filter((state) => state.inTheWay);
  return {
    gate,
    ready: inTheWay.length === 0,
    states,
    inTheWay,
    closeCalls: states.filter((state) => state.closeCall),
    withoutLimit: states.filter((state) => state.standing === 'no-limit'),
  };
}

/** What is asked of an assembly, and what was measured in it without being asked: nothing recorded drops out of sight. */
const checksIn = (build: Build & { readonly makeUp: MakeUp }, assembly: Assembly) =>
  checks.flatMap((check) => {
    const needed = needOf(check, assembly.phase, build.makeUp);
    if (needed !== 'not-asked') return [{ ...fitted(check, build.makeUp), needed }];
    return latest(assembly, check.id) === undefined ? [] : [{ ...check, needed: 'optional' as const }];
  });

function stateOf(
  build: Build,
  assembly: Assembly,
  check: Check & { readonly needed: 'required' | 'optional' },
  gate: Gate | undefined,
): CheckState {
  const counting = countingFor(build, assembly, check);
  const judged = judgeCheck(check, counting?.measurement, assembly, sheetOf(build, counting?.measurement));
  const override = overrideOf(assembly, check.id);
  const inTheWay = override === undefined && gates(check, gate) && blocks(check, judged, gate);
  return {
    ...judged,
    ...counting,
    check,
    needed: check.needed,
    inTheWay,
    ...(override === undefined ? {} : { override }),
  };
}

/** What is not measured yet will be held against the limits as they stand. */
const sheetOf = (build: Build, measurement: Measurement | undefined): SpecSheet | undefined =>
  measurement === undefined ? build.specSheet : sheetFor(build, measurement);

/** The measurement that counts for a check: this assembly's own, or for what carries over, that of the last trial that has one. */
function countingFor(
  build: Build,
  assembly: Assembly,
  check: Check,
): { readonly measurement: Measurement; readonly carriedFrom?: string } | undefined {
  const own = latest(assembly, check.id);
  if (own !== undefined) return { measurement: own };
  if (!check.carries || assembly.phase === 'as-found') return undefined;
  const before = build.assemblies.slice(
    0,
    build.assemblies.findIndex((one) => one.id === assembly.id),
  );
  for (const earlier of before.toReversed()) {
    const measurement = earlier.phase === 'trial' ? latest(earlier, check.id) : undefined;
    if (measurement !== undefined) return { measurement, carriedFrom: assemblyName(earlier) };
  }
  return undefined;
}

/** The mark comes after ready to paint, so it cannot stand in its way; everything else comes before. */
const gates = (check: Check, gate: Gate | undefined): boolean => check.id !== 'mark' || gate !== 'ready-to-paint';

function blocks(
  check: Check & { readonly needed: 'required' | 'optional' },
  judged: CheckJudged,
  gate: Gate | undefined,
): boolean {
  // Before and while the axle comes apart there is no gate, but what is not recorded then is lost for good.
  if (gate === undefined) return check.needed === 'required' && judged.standing === 'not-measured';
  if (judged.standing === 'outside' || judged.standing === 'too-close') return true;
  return check.needed === 'required' && judged.standing === 'not-measured';
}

export const isDescribed = (build: Build): build is Build & { readonly makeUp: MakeUp } => build.makeUp !== undefined;

/** Whether the latest mark of an assembly was accepted, sent back for another shim, or is not there yet. */
export function markJudgement(assembly: Assembly): 'accepted' | 'change' | 'recorded' | 'none' {
  const result = latest(assembly, 'mark')?.result;
  return result?.kind === 'mark' ? result.judgement : 'none';
}

/** What the person at the stand does next. */
export type Next =
  | {
      readonly do:
        | 'describe-axle'
        | 'enter-limits'
        | 'open-as-found'
        | 'open-stripping'
        | 'open-trial'
        | 'open-final'
        | 'look-at-plan'
        | 'issue-certificate'
        | 'road-test'
        | 'comeback'
        | 'next-axle';
    }
  | { readonly do: 'swap'; readonly swap: string }
  | { readonly do: 'check'; readonly assembly: string; readonly check: Check }
  | { readonly do: 'settle'; readonly assembly: string; readonly state: CheckState };

/**
 * One next step, never a choice. What matters goes before the list: a mark that asks for other shims leads to the plan, a
 * contradiction is settled before anything is read after it, and then comes the first thing missing.
 */
export function nextStep(build: Build): Next {
  if (!isDescribed(build)) return { do: 'describe-axle' };
  if (build.specSheet === undefined) return { do: 'enter-limits' };
  const assembly = currentAssembly(build);
  if (assembly === undefined) return { do: 'open-as-found' };
  if (asksForShims(assembly) && canBePlanned(build, assembly)) return afterAssembly(build, assembly);
  const { states, inTheWay } = readinessOf(build, assembly);
  const contradiction = inTheWay.find(({ standing }) => standing !== 'not-measured');
  const card = contradiction?.check.id === 'backlash' && assembly.phase === 'trial' ? waitingSwap(build) : undefined;
  // The ring gear's way into the window is on its card already: the next thing is to go by it.
  if (card !== undefined) return { do: 'swap', swap: card.id };
  if (contradiction !== undefined) return { do: 'settle', assembly: assembly.id, state: contradiction };
  const missing = states.find(
    (state) => state.needed === 'required' && state.standing === 'not-measured' && state.override === undefined,
  );
  return missing === undefined
    ? afterAssembly(build, assembly)
    : { do: 'check', assembly: assembly.id, check: missing.check };
}

/** A mark sent back, in a trial or in the final assembly, unless somebody let it stand with a reason. */
const asksForShims = (assembly: Assembly): boolean =>
  setWithShims(assembly) && markJudgement(assembly) === 'change' && overrideOf(assembly, 'mark') === undefined;

/** A mark alone says nothing of the next shim: without its backlash what is missing is read first. */
const canBePlanned = (build: Build, assembly: Assembly): boolean =>
  assembly.phase !== 'trial' || waitingSwap(build) !== undefined || latest(assembly, 'backlash') !== undefined;

function afterAssembly(build: Build, assembly: Assembly): Next {
  if (assembly.phase === 'as-found') return { do: 'open-stripping' };
  if (assembly.phase === 'stripping') return { do: 'open-trial' };
  const judgement = markJudgement(assembly);
  // A mark that is not accepted, in a trial or in the final assembly, asks for a further trial with other shims.
  if (judgement === 'change') {
    const swap = waitingSwap(build);
    if (swap !== undefined) return { do: 'swap', swap: swap.id };
    return completeAssemblies(build).includes(assembly) ? { do: 'look-at-plan' } : { do: 'open-trial' };
  }
  return { do: assembly.phase === 'trial' ? 'open-final' : afterClosing(build, assembly) };
}

/** Closed and certified, it goes on the road; what was heard there decides whether it comes back. */
function afterClosing({ certificates, notes }: Build, final: Assembly): AfterClosing {
  const issued = certificates.at(-1);
  const read = final.measurements.at(-1)?.at ?? final.at;
  if (issued === undefined || Date.parse(issued.at) < Date.parse(read)) return 'issue-certificate';
  const road = notes.findLast(({ topic, at }) => topic === 'road-test' && Date.parse(at) >= Date.parse(final.at));
  if (road === undefined) return 'road-test';
  return road.heard === undefined || road.heard === 'nothing' ? 'next-axle' : 'comeback';
}

type AfterClosing = 'issue-certificate' | 'road-test' | 'comeback' | 'next-axle';
