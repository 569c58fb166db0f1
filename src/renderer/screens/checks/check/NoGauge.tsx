import { Button } from '../../../parts/Button.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { type StreamKind, useGauges } from '../../../stores/gauges.ts';
import { go } from '../../../stores/route.ts';
import './noGauge.css';

const names = { indicator: 'indicator', torque: 'torque gauge' } as const;

/** In place of the readout when no gauge of the kind is plugged in: what will be here, and the way to it. */
export function NoGauge({ kind }: { readonly kind: StreamKind }) {
  const known = useGauges((seen) => seen.gauges?.filter((gauge) => gauge.kind === kind).length ?? 0);
  return (
    <div className="no-gauge">
      <StateMark shape="stale" size={96} />
      <p className="no-gauge__title">No {names[kind]} is sending</p>
      <p>
        {known === 0
          ? `The live reading stands here as soon as an ${names[kind]} is plugged in.`.replace('an torque', 'a torque')
          : `The ${names[kind]} is known and not live. Plug it in, or wake it up; the reading stands here at once.`}
      </p>
      <Button onPress={() => go({ at: 'gauges' })} keyHint="G">
        {known === 0 ? 'Plug a gauge in' : 'Look at the gauges'}
      </Button>
    </div>
  );
}
