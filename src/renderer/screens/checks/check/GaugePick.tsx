import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Pick } from '../../../parts/Pick.tsx';

interface GaugePickProps {
  readonly gauge: Gauge | undefined;
  readonly all: readonly Gauge[];
  readonly choose: (id: string) => void;
}

/** Which gauge, where there is more than one to choose from. */
export const GaugePick = ({ gauge, all, choose }: GaugePickProps) =>
  all.length < 2 ? undefined : (
    <Pick
      bare
      label="Gauge"
      value={gauge?.id}
      onChange={choose}
      options={all.map((one) => ({ value: one.id, words: one.label }))}
    />
  );
