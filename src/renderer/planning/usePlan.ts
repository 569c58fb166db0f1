import { useCallback, useEffect, useRef, useState } from 'react';
import type { Problem } from '../../shared/basics/result.ts';
import type { PlanAnswer } from '../../shared/axle/plan/answer.ts';
import type { PlanInput } from '../../shared/axle/plan/input.ts';
import type { Place } from '../../shared/axle/plan/sight.ts';
import type { Foreseen } from '../../shared/job/planning/foresee.ts';
import type { PlanNews } from './messages.ts';
import { openPlanner, type Planner } from './planner.ts';

/** The plan of a build as it comes in. */
interface PlanHeard {
  readonly answer?: PlanAnswer;
  readonly problem?: Problem;
  /** What is to be seen at the place asked for last, or at the plan's own. */
  readonly foreseen?: Foreseen;
}

export interface Planning extends PlanHeard {
  readonly look: (at: Place) => void;
}

/** The plan for this input, weighed beside the page, and what is to be seen wherever a hand moves to. */
export function usePlan(input: PlanInput | undefined): Planning {
  const [heard, setHeard] = useState<PlanHeard & { readonly of?: PlanInput }>({});
  const planner = useRef<Planner>(undefined);
  useEffect(() => {
    if (input === undefined) return undefined;
    const worker = new Worker(new URL('planWorker.ts', import.meta.url), { type: 'module' });
    const opened = openPlanner(worker, input, (news, movedOn) =>
      setHeard((now) => ({ ...(now.of === input ? now : {}), of: input, ...told(news, movedOn) })),
    );
    planner.current = opened;
    return () => opened.close();
  }, [input]);
  const look = useCallback((at: Place) => planner.current?.look(at), []);
  // What was heard of another build, or before a trial more, is no answer to this.
  return { ...(heard.of === input ? heard : {}), look };
}

/** The plan brings its own place into the picture, unless a hand has gone elsewhere meanwhile. */
function told(news: PlanNews, movedOn: boolean): PlanHeard {
  if (news.news === 'foreseen') return { foreseen: news.foreseen };
  if (!news.answer.ok) return { problem: news.answer.problem };
  const own = news.there === undefined || movedOn ? {} : { foreseen: news.there };
  return { answer: news.answer.value, ...own };
}
