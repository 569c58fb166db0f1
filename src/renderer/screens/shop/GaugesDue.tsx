import { useState } from 'react';
import type { Gauge } from '../../../shared/job/records/gauge.ts';
import { Button } from '../../parts/Button.tsx';
import { StateMark } from '../../parts/StateMark.tsx';
import { useGauges } from '../../stores/gauges.ts';
import { go } from '../../stores/route.ts';
import { dayWords } from '../../words/days.ts';

/** A shop wants to know a month ahead. */
const ahead_ms = 31 * 24 * 3600 * 1000;

const dayOf = (at_ms: number): string => new Date(at_ms).toISOString().slice(0, 10);
const daysNow = () => ({ today: dayOf(Date.now()), soon: dayOf(Date.now() + ahead_ms) });

/** Gauges past their calibration, or due within a month; nothing where there are none. */
export function GaugesDue() {
  const gauges = useGauges((seen) => seen.gauges) ?? [];
  const [{ today, soon }] = useState(daysNow);
  const due = gauges
    .filter((gauge): gauge is Gauge & { readonly dueOn: string } => gauge.dueOn !== undefined && gauge.dueOn <= soon)
    .toSorted((a, b) => a.dueOn.localeCompare(b.dueOn));
  if (due.length === 0) return undefined;
  return (
    <section className="shop__due">
      <h3>Gauges due</h3>
      <ul>
        {due.map(({ id, label, dueOn }) => (
          <li key={id}>
            <StateMark shape={dueOn < today ? 'outside' : 'too-close'} size={16} />
            <Button look="quiet" onPress={() => go({ at: 'gauges', gauge: id, doing: 'record' })}>
              {label}
            </Button>
            <span className="quiet">
              {dueOn < today ? 'past its calibration since' : 'due'} {dayWords(dueOn)}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
