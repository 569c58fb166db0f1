import type { Gauge } from '../../shared/job/records/gauge.ts';
import { StateMark } from '../parts/StateMark.tsx';
import { useWrong } from '../stores/checks.ts';
import { LiveDigits } from './LiveDigits.tsx';
import './readout.css';

/** The live reading, the largest thing on the screen, with its unit half as large right beside it, and whose it is. */
export function Readout({ gauge, words }: { readonly gauge: Gauge; readonly words: string }) {
  const wrong = useWrong(gauge);
  return (
    <div className="readout" role="group" aria-label={words}>
      <LiveDigits gauge={gauge} className="readout__live" />
      <p className="readout__gauge">
        {wrong === undefined ? undefined : <StateMark shape="outside" size={14} />} {gauge.label}
        {wrong === undefined ? undefined : <strong>, failed its last check. {wrong}</strong>}
      </p>
    </div>
  );
}
