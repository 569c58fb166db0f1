import { done } from '../../shared/contract/message.ts';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok, type Problem } from '../../shared/basics/result.ts';
import type { OpenBench } from './parts.ts';
import { listenForHand } from './handCues.ts';
import { saveReport } from './report.ts';

type Names =
  | 'bench.simulate'
  | 'bench.about'
  | 'bench.hand'
  | 'bench.teeth'
  | 'bench.read-off'
  | 'bench.photo'
  | 'bench.report'
  | 'bench.end';

/** What the bench says of itself, and the hand of a simulated one. */
export function selfAnswers(bench: OpenBench): Pick<BenchAnswers, Names> {
  const { version, folder, simulation, simulateBeside } = bench.options;
  const { id, name } = bench.identity.bench;
  return {
    'bench.about': async () =>
      ok({
        version,
        dataFolder: folder,
        simulated: simulation !== undefined,
        mayEnd: bench.options.onEnd !== undefined,
        canSimulate: simulateBeside !== undefined,
        bench: { id, name, fingerprint: bench.identity.fingerprint },
        ...(simulation === undefined ? {} : { simulatedAxle: simulation.describes }),
        warnings: bench.warnings.list(),
      }),
    'bench.end': async () => {
      const { onEnd } = bench.options;
      if (onEnd === undefined) return fail(endsOtherwise);
      bench.outlet.tell('bench-ends', {});
      setTimeout(onEnd, leave_ms);
      return ok(done);
    },
    'bench.simulate': async () => {
      if (simulateBeside === undefined) return fail(noneBeside);
      const opened = await simulateBeside();
      return opened.ok ? ok({ link: opened.value }) : opened;
    },
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
    'bench.read-off': async (asked) => {
      if (simulation === undefined) return fail(noHand);
      const read = simulation.readOff(asked);
      return ok(read === undefined ? {} : { read });
    },
    'bench.photo': async ({ on, side }) =>
      simulation === undefined
        ? fail(noHand)
        : ok({ jpeg_base64: Buffer.from(simulation.photo(on, side)).toString('base64') }),
  };
}

/** An answer needs a moment to leave before its bench is gone. */
const leave_ms = 200;

const endsOtherwise: Problem = {
  kind: 'ends-otherwise',
  sentence: 'This bench ends with its window.',
  remedy: 'Close the window.',
};

const noHand: Problem = {
  kind: 'no-simulation',
  sentence: 'This bench has no simulated hand.',
  remedy: 'Start it with npm start -- --simulate.',
};

const noneBeside: Problem = {
  kind: 'no-simulation',
  sentence: 'No simulated bench can be opened from this one.',
  remedy: 'End it and start with npm start -- --simulate.',
};
