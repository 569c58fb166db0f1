import { done } from '../../shared/contract/message.ts';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok, type Problem } from '../../shared/basics/result.ts';
import type { OpenBench } from './parts.ts';
import { listenForHand } from './handCues.ts';
import { saveReport } from './report.ts';

type Names = 'bench.about' | 'bench.hand' | 'bench.teeth' | 'bench.report';

/** What the bench says of itself, and the hand of a simulated one. */
export function selfAnswers(bench: OpenBench): Pick<BenchAnswers, Names> {
  const { version, folder, simulation } = bench.options;
  const { id, name } = bench.identity.bench;
  return {
    'bench.about': async () =>
      ok({
        version,
        dataFolder: folder,
        simulated: simulation !== undefined,
        bench: { id, name, fingerprint: bench.identity.fingerprint },
        ...(simulation === undefined ? {} : { simulatedAxle: simulation.describes }),
        warnings: bench.warnings.list(),
      }),
    'bench.report': async () => saveReport(bench),
    'bench.hand': async ({ action }) => {
      if (simulation === undefined) return fail(noHand);
      const cues = listenForHand(bench, action);
      try {
        await simulation.move(action, cues);
      } finally {
        cues.stop();
      }
      return ok(done);
    },
    'bench.teeth': async ({ on }) => (simulation === undefined ? fail(noHand) : ok(simulation.paint(on))),
  };
}

const noHand: Problem = {
  kind: 'no-simulation',
  sentence: 'This bench has no simulated hand.',
  remedy: 'Start it with npm start -- --simulate.',
};
