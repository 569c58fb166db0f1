import { useState } from 'react';
import { calibrationOn, type Gauge } from '../../../../shared/job/records/gauge.ts';
import { judgeGaugeCheck } from '../../../../shared/job/records/gaugeCheck.ts';
import { StateMark } from '../../../parts/StateMark.tsx';
import { useChecks } from '../../../stores/checks.ts';
import { dayWords } from '../../../words/days.ts';
import { Verdict } from './GaugeCheckUp.tsx';

/** When the gauge was last checked, and whether it is past its calibration today. */
export function LastCheck({ gauge }: { readonly gauge: Gauge }) {
  const last = useChecks((seen) => seen.last[gauge.id]);
  const [today] = useState(() => new Date().toISOString().slice(0, 10));
  const past = calibrationOn(gauge, today) === 'past';
  return (
    <>
      {past && gauge.dueOn !== undefined ? (
        <p>
          <StateMark shape="outside" size={16} /> Past its calibration since {dayWords(gauge.dueOn)}: every result taken
          with it says so.
        </p>
      ) : undefined}
      {last === undefined ? undefined : (
        <>
          <p>
            {last.by === 'not named' ? `Checked ${dayWords(last.at)}.` : `Checked ${dayWords(last.at)} by ${last.by}.`}
          </p>
          <Verdict judged={judgeGaugeCheck(last, gauge)} gauge={gauge} />
        </>
      )}
    </>
  );
}
