import { create } from 'zustand';
import type { Answer, BenchClient } from '../../shared/contract/contract.ts';
import { ask } from './ask.ts';
import { showProblem } from './problems.ts';

type About = Answer<'bench.about'>;

interface BenchSeen {
  /** `looking` until the bench has answered once; afterwards whether it is there. */
  readonly presence: 'looking' | 'here' | 'away';
  readonly about: About | undefined;
  /** How often it has been reached: it may have been started anew each time. */
  readonly arrivals: number;
}

export const useBenchSeen = create<BenchSeen>()(() => ({ presence: 'looking', about: undefined, arrivals: 0 }));

/** Follows the bench; `onArrival` runs each time it can be reached (again), when everything may have changed. */
export function followBench(client: BenchClient, onArrival: () => void): void {
  client.hear('bench-warnings', (warnings) =>
    useBenchSeen.setState(({ about }) => (about === undefined ? {} : { about: { ...about, warnings } })),
  );
  client.hear('bench-fault', showProblem);
  client.onPresence((present) => {
    if (!present) {
      useBenchSeen.setState((seen) => ({ presence: seen.presence === 'looking' ? 'looking' : 'away' }));
      return;
    }
    useBenchSeen.setState(({ arrivals }) => ({ presence: 'here', arrivals: arrivals + 1 }));
    void ask('bench.about', {}).then((about) => useBenchSeen.setState({ about }));
    onArrival();
  });
}
