import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { loadGauges } from '../../../stores/gauges.ts';
import { go, goInstead } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { blankGauge, type GaugeDraft } from './draft.ts';
import { GaugeForm } from './GaugeForm.tsx';
import { linkDraftOf } from './linkDraft.ts';
import { useGaugeForm } from './useGaugeForm.ts';

/** The record of a gauge that is new in the shop, begun with the link it hangs at; empty for a tool that is read off. */
export function NewGauge({ begin }: { readonly begin: string }) {
  const units = useSession((session) => session.units);
  const start = (): GaugeDraft => blankGauge(begin === '' ? 'typed' : 'indicator', linkDraftOf(begin), units);
  const { draft, change, errors, submit } = useGaugeForm(start, async (gauge) => {
    if (gauge.link !== undefined) await ask('gauges.plug-in', { gauge: gauge.id });
    await loadGauges();
    goInstead({ at: 'gauges', gauge: gauge.id });
  });
  return (
    <>
      <Stage title={draft.kind === 'typed' ? 'The new tool' : 'The new gauge'}>
        <GaugeForm draft={draft} errors={errors} onChange={change} />
      </Stage>
      <Words
        title="What the certificate will say of it"
        next={{ words: keepWords(draft), run: submit }}
        others={<Button onPress={() => go({ at: 'gauges' })}>Back to the ports</Button>}
      >
        <p>
          Resolution, stated error and calibration decide how sure a number is. Leave out what you do not know; nothing
          is assumed for it.
        </p>
      </Words>
    </>
  );
}

function keepWords({ kind, link }: GaugeDraft): string {
  if (kind === 'typed') return 'Keep this tool';
  return link.sort === 'none' ? 'Keep it' : 'Keep it and plug it in';
}
