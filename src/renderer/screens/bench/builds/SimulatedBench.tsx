import { gearSetWords } from '../../../../shared/presentation/words/gearSet.ts';
import { Button } from '../../../parts/Button.tsx';
import { useBenchSeen } from '../../../stores/bench.ts';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { openSimulated, tryIt } from './tryIt.ts';

/**
 * For whoever has no gauge at hand: the same job on a simulated axle.
 * @param offered whether the green button offers it already: one thing to do stands on a screen once
 */
export function SimulatedBench({ offered }: { readonly offered: boolean }) {
  const units = useSession((session) => session.units);
  const about = useBenchSeen((seen) => seen.about);
  const axle = about?.simulatedAxle;
  if (about === undefined) return undefined;
  if (axle !== undefined) {
    return (
      <section>
        <h2>The simulated bench is plugged in</h2>
        <p>
          A new set of {gearSetWords(axle.makeUp, units)} stands on it, and its gauges send over a serial line like any
          other. What you record here says nothing about a real axle.
        </p>
        <Button keyHint="G" onPress={() => go({ at: 'gauges' })}>
          Show the gauges
        </Button>
        {offered ? undefined : <Button onPress={() => void tryIt(axle)}>Try it on the simulated axle</Button>}
      </section>
    );
  }
  return (
    <section>
      <h2>No gauge at hand?</h2>
      {about.canSimulate ? (
        <p>
          The whole job on a simulated axle with simulated gauges, in records of its own. What is here stays as it is;
          go back in the browser to come to it.
        </p>
      ) : (
        <p>
          Start the bench with <code>npm start -- --simulate</code> and try the whole job on a simulated axle with
          simulated gauges.
        </p>
      )}
      {about.canSimulate ? <Button onPress={() => void openSimulated()}>Try it on a simulated axle</Button> : undefined}
      <Button keyHint="G" onPress={() => go({ at: 'gauges' })}>
        Plug a gauge in
      </Button>
    </section>
  );
}
