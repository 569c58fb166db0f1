import type { PlanInput } from '../../shared/axle/plan/input.ts';
import type { Place } from '../../shared/axle/plan/sight.ts';
import type { PlanAsk, PlanNews } from './messages.ts';

/** A worker that weighs one build's trials. */
export interface Planner {
  /** Asks what is to be seen at a place. While the worker is busy only the newest place is kept. */
  look(at: Place): void;
  close(): void;
}

/** What a planner works with; a Worker is one. */
interface PlanPort {
  postMessage(ask: PlanAsk): void;
  addEventListener(type: 'message', listener: (event: { readonly data: PlanNews }) => void): void;
  terminate(): void;
}

/**
 * Asks for the plan at once and for places afterwards, one question at a time, the newest next.
 * @param hear is told everything that comes, and whether a hand has gone to another place meanwhile.
 */
export function openPlanner(
  port: PlanPort,
  input: PlanInput,
  hear: (news: PlanNews, movedOn: boolean) => void,
): Planner {
  let state: 'planning' | 'looking' | 'idle' = 'planning';
  let waiting: Place | undefined;
  const look = (at: Place): void => {
    if (state === 'idle') {
      state = 'looking';
      port.postMessage({ ask: 'look', at });
    } else waiting = at;
  };
  port.addEventListener('message', ({ data }) => {
    hear(data, waiting !== undefined);
    // What is to be seen where it stands comes before the plan; the worker is still at it then.
    if (data.news !== 'plan' && state === 'planning') return;
    state = 'idle';
    const next = waiting;
    waiting = undefined;
    if (next !== undefined) look(next);
  });
  port.postMessage({ ask: 'plan', input });
  return { look, close: () => port.terminate() };
}
