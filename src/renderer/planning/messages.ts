import type { Result } from '../../shared/basics/result.ts';
import type { PlanAnswer } from '../../shared/axle/plan/answer.ts';
import type { PlanInput } from '../../shared/axle/plan/input.ts';
import type { Place } from '../../shared/axle/plan/sight.ts';
import type { Foreseen } from '../../shared/job/planning/foresee.ts';

/** What the page asks the worker that weighs the trials: the plan once, then what is to be seen at any place. */
export type PlanAsk =
  | { readonly ask: 'plan'; readonly input: PlanInput }
  | { readonly ask: 'look'; readonly at: Place };

/** What comes back: where it stands as soon as the trials are weighed, then the plan, then every place looked at. */
export type PlanNews =
  | { readonly news: 'foreseen'; readonly foreseen: Foreseen }
  | { readonly news: 'plan'; readonly answer: Result<PlanAnswer>; readonly there: Foreseen | undefined };
