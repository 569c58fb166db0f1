import type { Gauge } from '../../shared/job/records/gauge.ts';
import { LiveDigits } from './LiveDigits.tsx';
import './readout.css';

/** The live reading, the largest thing on the screen, with its unit half as large right beside it. */
export function Readout({ gauge, words }: { readonly gauge: Gauge; readonly words: string }) {
  return (
    <div className="readout" role="group" aria-label={words}>
      <LiveDigits gauge={gauge} className="readout__live" />
    </div>
  );
}
