import type { State } from '../drawing/states.ts';
import { showText, type UnitSystem } from '../../basics/show.ts';
import type { Measurement } from '../../job/records/build.ts';
import type { MeasuredResult } from '../../job/records/measurement.ts';
import { limitedQuantities } from '../../job/records/specSheet.ts';
import { isNone } from '../../basics/result.ts';
import type { CheckJudged, LimitJudged } from '../../job/checks/judge.ts';
import type { CheckState } from '../../job/checks/readiness.ts';
import { limitWords, quantityWords } from './limits.ts';
import { checkBrief } from './answers.ts';

/** The shape a check is shown with. `recorded` has a number and nothing to hold it against: it gets a plain tick. */
export type Shape = State | 'recorded';

export function shapeOf(judged: CheckJudged & Pick<Partial<CheckState>, 'override'>): Shape {
  if (judged.override !== undefined) return 'overridden';
  if (judged.standing === 'recorded') return 'recorded';
  if (judged.standing === 'no-limit') return 'recorded';
  return judged.standing === 'within' && judged.closeCall ? 'too-close' : judged.standing;
}

/** Where a check stands, in two or three words. */
export function standingWords(state: CheckJudged & Pick<Partial<CheckState>, 'override'>): string {
  if (state.override !== undefined) return 'overridden';
  if (state.standing === 'within' && state.closeCall) return 'within, too close to call';
  return {
    within: 'within',
    outside: 'outside',
    'too-close': 'too close to call',
    'not-measured': 'not measured',
    recorded: 'recorded',
    'no-limit': state.limits.length === 0 ? 'no limit entered' : 'no limit for this state',
  }[state.standing];
}

/** Where a check stands with its number in the sentence: "Station 3: 0.331 mm, 0.031 mm above the window." */
export function standingSentence(state: CheckState, measurement: Measurement | undefined, system: UnitSystem): string {
  if (measurement === undefined) return `${state.check.title}: not measured yet.`;
  const brief = checkBrief(state.check.id, measurement.result, system, measurement.how);
  const telling = state.limits.find((one) => one.verdict === 'outside') ?? state.limits.find((one) => one.closeCall);
  if (telling !== undefined)
    return `${limitSentence(telling, measurement, system)}.${settleWords(telling, measurement)}`;
  if (state.why !== undefined)
    return `${state.check.title}: ${brief}. ${capital(state.why)}${state.why.endsWith('.') ? '' : '.'}`;
  if (state.standing === 'no-limit') return `${state.check.title}: ${brief}. No limit is entered to hold it against.`;
  return `${state.check.title}: ${brief}, ${standingWords(state)}.`;
}

function limitSentence(judged: LimitJudged, measurement: Measurement, system: UnitSystem): string {
  if (isNone(judged.value)) return `${quantityWords[judged.quantity]}: not measured`;
  const dimension = limitedQuantities[judged.quantity];
  const value = showText(judged.value, dimension, system);
  const who = placeWords(judged, measurement);
  if (judged.beyond === undefined) {
    return `${who}: ${value} ± ${showText(judged.U95, dimension, system)}, too close to call against ${limitWords(judged.limit, system)}${chanceWords(judged)}`;
  }
  const side = judged.beyond > 0 ? 'above' : 'below';
  const window = judged.limit.min !== undefined && judged.limit.max !== undefined ? 'the window' : 'the limit';
  return `${who}: ${value}, ${showText(Math.abs(judged.beyond), dimension, system)} ${side} ${window}${chanceWords(judged)}`;
}

/** ", 74 in 100 that it lies within": whole hundredths, and never a certainty where the call is close. */
function chanceWords({ chance }: LimitJudged): string {
  if (chance === undefined) return '';
  return `, ${Math.min(99, Math.max(1, Math.round(100 * chance)))} in 100 that it lies within`;
}

/** A backlash outside its window belongs to a station; everything else to its quantity. */
function placeWords(judged: LimitJudged, { result }: Measurement): string {
  if (judged.quantity !== 'backlash' || result.kind !== 'backlash') return quantityWords[judged.quantity];
  const station = result.stations.find((one) => one.value_mm === judged.value);
  return station === undefined ? 'Backlash' : `Station ${station.number}`;
}

/** " More rocks would settle it." with its space, or nothing where nothing is too close or nobody can say. */
export function settleWords({ closeCall, settle }: Pick<LimitJudged, 'closeCall' | 'settle'>, of: Settled): string {
  if (!closeCall || settle === undefined) return '';
  const typed = of.how?.kind === 'typed';
  const gauge = typed ? 'A finer tool' : 'A finer gauge';
  const what = {
    'more-repeats': typed ? 'Reading it again, with a finer tool,' : repeats[of.result.kind],
    'finer-gauge': gauge,
    'truer-stem': 'A stem set truer',
  }[settle];
  return what === undefined ? '' : ` ${what} would settle it.`;
}

/** The same for the first close call of a check, or nothing: where another limit is broken for certain, nothing is to be settled. */
export const settleSentence = ({ limits }: Pick<CheckJudged, 'limits'>, measurement: Settled): string =>
  limits.some(({ verdict, closeCall }) => verdict === 'outside' && !closeCall)
    ? ''
    : (limits.map((limit) => settleWords(limit, measurement)).find((words) => words !== '') ?? '');

type Settled = { readonly result: Pick<MeasuredResult, 'kind'>; readonly how?: Measurement['how'] };

const repeats: Partial<Record<MeasuredResult['kind'], string>> = {
  backlash: 'More rocks',
  runout: 'More readings over the turn',
  torque: 'More whole turns',
};

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
