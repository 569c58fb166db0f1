import { useState } from 'react';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Button } from '../../../parts/Button.tsx';
import { goToFirstWrong } from '../../../parts/firstWrong.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { loadGauges } from '../../../stores/gauges.ts';
import { gaugeDraftOf, readGauge } from './draft.ts';
import { GaugeForm } from './GaugeForm.tsx';

/** The record of a gauge, to be changed. What was measured with it keeps the record of its day. */
export function GaugeRecord({ gauge, onDone }: { readonly gauge: Gauge; readonly onDone: () => void }) {
  const [draft, setDraft] = useState(() => gaugeDraftOf(gauge));
  const [tried, setTried] = useState(false);
  const read = readGauge(draft);
  const save = async (): Promise<void> => {
    setTried(true);
    if (!read.ok) return goToFirstWrong();
    if ((await ask('gauges.save', { gauge: read.value })) === undefined) return;
    await loadGauges();
    onDone();
  };
  return (
    <>
      <Stage title={gauge.label}>
        <GaugeForm
          draft={draft}
          errors={tried ? (read.errors ?? {}) : {}}
          onChange={(change) => setDraft({ ...draft, ...change })}
        />
      </Stage>
      <Words
        title="What the certificate says of it"
        next={{ words: 'Keep the record', run: () => void save() }}
        others={<Button onPress={onDone}>Leave it as it was</Button>}
      >
        <p>What was measured before keeps the record of its day.</p>
      </Words>
    </>
  );
}
