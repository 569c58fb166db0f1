import { create } from 'zustand';
import type { Answer, BenchClient } from '../../shared/contract/contract.ts';
import { ask } from './ask.ts';
import { benchGone } from '../../shared/contract/client.ts';
import { putProblemAside, showProblem, useProblem } from './problems.ts';

type About = Answer<'bench.about'>;

interface BenchSeen {
  /** `looking` until the bench has answered once; afterwards whether it is there. */
  readonly presence: 'looking' | 'here' | 'away';
  readonly about: About | undefined;
  /** A person has ended it; it does not come back by itself. */
  readonly ended: boolean;
  /** How often it has been reached: it may have been started anew each time. */
  readonly arrivals: number;
}

export const useBenchSeen = create<BenchSeen>()(() => ({
  presence: 'looking',
  about: undefined,
  ended: false,
  arrivals: 0,
}));

/** Follows the bench; `onArrival` runs each time it can be reached (again), when everything may have changed. */
export function followBench(client: BenchClient, onArrival: () => void): void {
  client.hear('bench-warnings', (warnings) =>
    useBenchSeen.setState(({ about }) => (about === undefined ? {} : { about: { ...about, warnings } })),
  );
  client.hear('bench-fault', showProblem);
  client.hear('bench-ends', () => useBenchSeen.setState({ ended: true }));
  client.onPresence((present) => {
    if (!present) {
      useBenchSeen.setState((seen) => ({ presence: seen.presence === 'looking' ? 'looking' : 'away' }));
      return;
    }
    // What was asked before it answered, or while it was away, is asked again: the line that said so is no longer true.
    if (useProblem.getState().problem?.kind === benchGone) putProblemAside();
    useBenchSeen.setState(({ arrivals }) => ({ presence: 'here', ended: false, arrivals: arrivals + 1 }));
    void ask('bench.about', {}).then((about) => useBenchSeen.setState({ about }));
    onArrival();
  });
}
