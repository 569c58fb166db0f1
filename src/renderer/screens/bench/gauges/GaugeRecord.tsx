import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { loadGauges } from '../../../stores/gauges.ts';
import { gaugeDraftOf } from './draft.ts';
import { GaugeForm } from './GaugeForm.tsx';
import { useGaugeForm } from './useGaugeForm.ts';

/** The record of a gauge, to be changed. What was measured with it keeps the record of its day. */
export function GaugeRecord({ gauge, onDone }: { readonly gauge: Gauge; readonly onDone: () => void }) {
  const { draft, change, errors, submit } = useGaugeForm(
    () => gaugeDraftOf(gauge),
    async () => {
      await loadGauges();
      onDone();
    },
  );
  return (
    <>
      <Stage title={gauge.label}>
        <GaugeForm draft={draft} errors={errors} onChange={change} />
      </Stage>
      <Words
        title="What the certificate says of it"
        next={{ words: 'Keep the record', run: submit }}
        others={<Button onPress={onDone}>Leave it as it was</Button>}
      >
        <p>What was measured before keeps the record of its day.</p>
      </Words>
    </>
  );
}
