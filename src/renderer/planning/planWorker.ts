// The plan weighs some thousand axles: about a second. It runs here, beside the page, so that no screen stands still.
import { insightFrom, type Insight } from '../../shared/axle/plan/insight.ts';
import type { PlanInput } from '../../shared/axle/plan/input.ts';
import { planFrom } from '../../shared/axle/plan/plan.ts';
import { ok } from '../../shared/basics/result.ts';
import { sightOf } from '../../shared/axle/plan/sight.ts';
import { foresee } from '../../shared/job/planning/foresee.ts';
import type { PlanAsk, PlanNews } from './messages.ts';

interface InputWeighed {
  readonly input: PlanInput;
  readonly insight: Insight;
}

let weighed: InputWeighed | undefined;

const tell = (news: PlanNews): void => postMessage(news);

addEventListener('message', ({ data }: MessageEvent<PlanAsk>) => {
  if (data.ask === 'plan') weigh(data.input);
  else if (weighed !== undefined) {
    tell({ news: 'foreseen', foreseen: foresee(weighed.insight, weighed.input, data.at) });
  }
});

function weigh(input: PlanInput): void {
  const sight = sightOf(input);
  if (!sight.ok) return tell({ news: 'plan', answer: sight, there: undefined });
  const insight = insightFrom(input, sight.value);
  weighed = { input, insight };
  const last = input.trials.at(-1);
  const here = { pinionOut: last?.pinionOut_mm ?? 0, ringAway: last?.ringAway_mm ?? 0 };
  tell({ news: 'foreseen', foreseen: foresee(insight, input, here) });
  const answer = planFrom(insight, input);
  const place = { pinionOut: answer.pinionOut_mm, ringAway: answer.ringAway_mm };
  tell({ news: 'plan', answer: ok(answer), there: foresee(insight, input, place) });
}
