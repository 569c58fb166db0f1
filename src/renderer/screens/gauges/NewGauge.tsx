import { useState } from 'react';
import { Button } from '../../parts/Button.tsx';
import { goToFirstWrong } from '../../parts/firstWrong.ts';
import { Stage } from '../../parts/Stage.tsx';
import { Words } from '../../parts/Words.tsx';
import { ask } from '../../stores/ask.ts';
import { loadGauges, loadPorts, useGauges } from '../../stores/gauges.ts';
import { go } from '../../stores/route.ts';
import { useSession } from '../../stores/session.ts';
import { blankGauge, type GaugeDraft, readGauge } from './draft.ts';
import { GaugeForm } from './GaugeForm.tsx';
import { type LinkDraft, linkDraftOf } from './linkDraft.ts';

/** The ports there are, and the record of the gauge that hangs on one of them. */
export function NewGauge() {
  const units = useSession((session) => session.units);
  const [draft, setDraft] = useState<GaugeDraft>();
  const [tried, setTried] = useState(false);
  const read = draft === undefined ? undefined : readGauge(draft);
  const save = async (): Promise<void> => {
    setTried(true);
    if (read?.ok !== true) return goToFirstWrong();
    const gauge = await ask('gauges.save', { gauge: read.value });
    if (gauge === undefined) return;
    if (gauge.link !== undefined) await ask('gauges.plug-in', { gauge: gauge.id });
    await loadGauges();
    go({ at: 'gauges', gauge: gauge.id });
  };
  return (
    <>
      <Stage title={draft === undefined ? 'Plug a gauge in' : 'The new gauge'}>
        {draft === undefined ? (
          <Ports
            onTake={(link) => setDraft(blankGauge('indicator', link, units))}
            onTyped={() => setDraft(blankGauge('typed', notYet, units))}
          />
        ) : (
          <GaugeForm
            draft={draft}
            errors={tried ? (read?.errors ?? {}) : {}}
            onChange={(change) => setDraft({ ...draft, ...change })}
          />
        )}
      </Stage>
      <Words
        title={draft === undefined ? 'Where it is plugged in' : 'What the certificate will say of it'}
        next={
          draft === undefined
            ? { words: 'Look for ports again', run: () => void loadPorts() }
            : { words: draft.kind === 'typed' ? 'Keep this tool' : 'Keep it and plug it in', run: () => void save() }
        }
        others={
          draft === undefined ? undefined : <Button onPress={() => setDraft(undefined)}>Back to the ports</Button>
        }
      >
        <p>
          {draft === undefined
            ? 'A gauge that sends readings hangs on a port. One that is only read off is entered too, so that its resolution need not be typed each time.'
            : 'Resolution, stated error and calibration decide how sure a number is. Leave out what you do not know; nothing is assumed for it.'}
        </p>
      </Words>
    </>
  );
}

const notYet = linkDraftOf('');

interface PortsProps {
  readonly onTake: (link: LinkDraft) => void;
  readonly onTyped: () => void;
}

function Ports({ onTake, onTyped }: PortsProps) {
  const ports = useGauges((seen) => seen.ports);
  const gauges = useGauges((seen) => seen.gauges) ?? [];
  return (
    <div className="ports">
      {ports?.length === 0 ? (
        <p>
          No port is there. Plug the cable in; on Linux the user may need to be in the group that owns serial ports.
        </p>
      ) : undefined}
      <ul className="ports__list">
        {(ports ?? []).map((port) => {
          const taken = gauges.find((gauge) => gauge.link === port.link);
          return (
            <li key={port.link} className="ports__one">
              <span className="ports__words">
                <strong>{port.name}</strong>
                <span className="quiet">
                  {port.link}
                  {taken === undefined ? '' : `, belongs to ${taken.label}`}
                </span>
              </span>
              <Button
                more={port.link}
                onPress={() =>
                  taken === undefined ? onTake(linkDraftOf(port.link)) : go({ at: 'gauges', gauge: taken.id })
                }
              >
                {taken === undefined ? 'A gauge hangs here' : 'Show it'}
              </Button>
            </li>
          );
        })}
      </ul>
      <div className="ports__others">
        <Button onPress={() => onTake({ ...notYet, sort: 'serial' })}>At another port, or in the network</Button>
        <Button onPress={() => onTake({ ...notYet, sort: 'keyboard' })}>A gauge that types like a keyboard</Button>
        <Button onPress={onTyped}>Enter a tool that is only read off</Button>
      </div>
    </div>
  );
}
