import type { Build } from '../../../../shared/job/records/build.ts';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import { type CheckState, isDescribed, nextStep, readinessOf } from '../../../../shared/job/checks/readiness.ts';
import { checkBrief } from '../../../../shared/presentation/words/answers.ts';
import { standingWords } from '../../../../shared/presentation/words/standing.ts';
import type { NextAction } from '../../../parts/Words.tsx';
import { sayKept } from '../../../stores/kept.ts';
import { useNotebook } from '../../../stores/notebook.ts';
import { go, goInstead, type Route } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { nextWords } from '../../../words/next.ts';

/** What comes after a recorded check, as the one action. */
export function goOn(build: Build): NextAction {
  const next = nextWords(build, nextStep(build));
  return { words: next.words, run: () => go(next.route) };
}

/** Goes to what comes next on the open build. */
export const goToNext = (): void => toNext(go);

/** The same, with no way back to a question that was answered: it would open the same assembly once more. */
export const goToNextInstead = (): void => toNext(goInstead);

function toNext(by: (route: Route) => void): void {
  const { build } = useNotebook.getState();
  if (build !== undefined) by(nextWords(build, nextStep(build)).route);
}

/**
 * Goes on by itself after an entry that leaves nothing to look at: no close call, nothing outside. The next screen says what
 * was kept. What asks for a look stays where it is.
 */
export function goOnAfter(assembly: string, check: CheckId): void {
  const { build } = useNotebook.getState();
  if (build === undefined || !isDescribed(build)) return;
  const here = build.assemblies.find(({ id }) => id === assembly);
  if (here === undefined) return;
  const readiness = readinessOf(build, here);
  const state = readiness.states.find((one) => one.check.id === check);
  if (state === undefined || !(isPlain(state) || asksForShims(state))) return;
  const next = nextStep(build);
  const gateReached =
    check !== 'mark' &&
    readiness.gate !== undefined &&
    readiness.ready &&
    (next.do !== 'check' || next.check.id === 'mark');
  const route: Route = gateReached ? { at: 'build', build: build.id, assembly } : nextWords(build, next).route;
  go(route);
  sayKept(keptWords(state));
}

const plain: ReadonlySet<CheckState['standing']> = new Set(['within', 'recorded', 'no-limit']);
const isPlain = ({ standing, closeCall }: CheckState): boolean => plain.has(standing) && !closeCall;

/** A mark that asks for a change is no fault to look at: the plan is what is looked at then. */
const asksForShims = ({ measurement }: CheckState): boolean =>
  measurement?.result.kind === 'mark' && measurement.result.judgement === 'change';

function keptWords(state: CheckState): string {
  const { measurement } = state;
  const brief =
    measurement === undefined
      ? ''
      : `, ${checkBrief(state.check.id, measurement.result, useSession.getState().units, measurement.how)}`;
  const stands = state.standing === 'within' && state.limits.length > 0 ? `, ${standingWords(state)}` : '';
  return `Kept: ${state.check.title.toLowerCase()}${brief}${stands}.`;
}
