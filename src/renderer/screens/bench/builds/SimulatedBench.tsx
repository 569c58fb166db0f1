import { Button } from '../../../parts/Button.tsx';
import { useBenchSeen } from '../../../stores/bench.ts';
import { go } from '../../../stores/route.ts';

/** For whoever has no gauge at hand: the same job on a simulated axle. */
export function SimulatedBench() {
  const simulated = useBenchSeen((seen) => seen.about?.simulated);
  if (simulated === undefined) return undefined;
  if (simulated) {
    return (
      <section>
        <h2>The simulated bench is plugged in</h2>
        <p>
          Its gauges measure a simulated axle, over a serial line like any other gauge. What you record here says
          nothing about a real one.
        </p>
        <Button keyHint="G" onPress={() => go({ at: 'gauges' })}>
          Show the gauges
        </Button>
      </section>
    );
  }
  return (
    <section>
      <h2>No gauge at hand?</h2>
      <p>
        Start the bench with <code>npm start -- --simulate</code> and try the whole job on a simulated axle with
        simulated gauges.
      </p>
      <Button keyHint="G" onPress={() => go({ at: 'gauges' })}>
        Plug a gauge in
      </Button>
    </section>
  );
}
