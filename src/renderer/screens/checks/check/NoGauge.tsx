import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Button } from '../../../parts/Button.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import type { NextAction } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { type StreamKind, useGauges } from '../../../stores/gauges.ts';
import { go } from '../../../stores/route.ts';
import './noGauge.css';

const names = { indicator: 'an indicator', torque: 'a torque gauge' } as const;

interface NoGaugeProps {
  readonly kind: StreamKind;
  /** The one that is known and not live. */
  readonly gauge: Gauge | undefined;
}

/** In place of the readout when no gauge of the kind is plugged in: what will be here. */
export const NoGauge = ({ kind, gauge }: NoGaugeProps) => (
  <div className="no-gauge">
    <StateMark shape="stale" size={96} />
    <p className="no-gauge__title">No {names[kind].replace(/^an? /u, '')} is sending</p>
    <p>
      {gauge === undefined
        ? `The live reading stands here as soon as ${names[kind]} is plugged in.`
        : `${gauge.label} is known and not live. Plug it in, or wake it up; the reading stands here at once.`}
    </p>
    {gauge === undefined ? undefined : (
      <Button onPress={() => go({ at: 'gauges' })} keyHint="G">
        Look at the gauges
      </Button>
    )}
  </div>
);

/** What comes first while no gauge of the kind sends: the known one is plugged in or looked at, else one is entered. */
export function gaugeNext(gauge: Gauge | undefined): NextAction {
  if (gauge === undefined) return { words: 'Plug a gauge in', run: () => go({ at: 'gauges' }) };
  const isAway = useGauges.getState().states[gauge.id] === undefined;
  if (isAway && gauge.link !== undefined) {
    return { words: `Plug ${gauge.label} in`, run: () => void ask('gauges.plug-in', { gauge: gauge.id }) };
  }
  return { words: `Look at ${gauge.label}`, run: () => go({ at: 'gauges', gauge: gauge.id }) };
}

interface WaysToRead {
  /** What stands out while no gauge sends; nothing while one does. */
  readonly first: NextAction | undefined;
  /** What can be done instead. */
  readonly beside: NextAction;
}

/**
 * With a gauge that sends, a dial is another way. Without any, reading one is what comes next; where a gauge is known and away,
 * that one is plugged in first, because a measurement may wait for it.
 */
export function waysToRead(gauge: Gauge | undefined, live: boolean, onByHand: () => void): WaysToRead {
  const byHand = { words: 'Enter it by hand', run: onByHand };
  if (live) return { first: undefined, beside: byHand };
  return gauge === undefined
    ? { first: byHand, beside: gaugeNext(gauge) }
    : { first: gaugeNext(gauge), beside: byHand };
}
