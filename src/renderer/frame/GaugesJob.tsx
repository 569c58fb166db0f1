import { useGauges } from '../stores/gauges.ts';
import { type GaugesRoute, go, useRoute } from '../stores/route.ts';
import { linkWords } from '../words/links.ts';
import { IconButton } from './IconButton.tsx';
import { JobRow } from './JobRow.tsx';

/** The gauges the shop has, with how each link stands; typed tools among them. */
export function GaugesJob({ route }: { readonly route: GaugesRoute }) {
  const { gauges, states } = useGauges();
  const before = useRoute(({ before }) => before);
  return (
    <>
      <header className="job__head">
        <IconButton icon="back" label="Back to the job" onPress={() => go(before)} />
        <h2 className="job__title">Gauges</h2>
      </header>
      <div className="job__steps">
        {gauges?.length === 0 ? (
          <p className="job__empty">Every gauge and every tool that is read off is listed here with its calibration.</p>
        ) : undefined}
        {(gauges ?? []).map((gauge) => {
          const words = linkWords(states[gauge.id]);
          const typed = gauge.kind === 'typed';
          return (
            <JobRow
              key={gauge.id}
              title={gauge.label}
              below={typed ? 'read off, typed' : words.short}
              {...(typed ? { shape: 'recorded' as const } : { liveness: words.liveness })}
              here={route.gauge === gauge.id}
              onPress={() => go({ at: 'gauges', gauge: gauge.id })}
            />
          );
        })}
        <JobRow
          title="Plug a gauge in"
          below="or enter a tool"
          here={route.gauge === undefined}
          onPress={() => go({ at: 'gauges' })}
        />
      </div>
    </>
  );
}
