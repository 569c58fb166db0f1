import { Button } from 'react-aria-components';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import { LiveAge } from '../instruments/LiveAge.tsx';
import { LiveDigits } from '../instruments/LiveDigits.tsx';
import { useDead } from '../live/useDead.ts';
import { LiveMark } from '../parts/LiveMark.tsx';
import { useWrong } from '../stores/checks.ts';
import { useGauges } from '../stores/gauges.ts';
import { go } from '../stores/route.ts';
import { linkWords } from '../words/links.ts';

/** One gauge in the strip: shape and word of its state, name, value, age. */
export function StripGauge({ gauge }: { readonly gauge: Gauge }) {
  // The words only: the counts in the state change twice a second and are not shown here.
  const words = useGauges((seen) => linkWords(seen.states[gauge.id]));
  const dead = useDead(gauge.id);
  const wrong = useWrong(gauge) !== undefined;
  const liveness = dead && words.liveness === 'live' ? 'quiet' : words.liveness;
  return (
    <Button className="strip-gauge" onPress={() => go({ at: 'gauges', gauge: gauge.id })}>
      <LiveMark liveness={wrong && words.live ? 'fault' : liveness} />
      <span className="strip-gauge__name">
        {gauge.label}
        {wrong ? ', failed its check' : undefined}
      </span>
      <LiveDigits gauge={gauge} className="strip-gauge__value" />
      <span className="strip-gauge__state">{words.live ? <LiveAge gauge={gauge.id} /> : words.short}</span>
    </Button>
  );
}
