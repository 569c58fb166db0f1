import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { loadPorts, useGauges } from '../../../stores/gauges.ts';
import { go } from '../../../stores/route.ts';

/** The ports there are, and the other ways by which a gauge may come. */
export const PortsScreen = () => (
  <>
    <Stage title="Plug a gauge in">
      <div className="ports">
        <Ports />
        <div className="ports__others">
          <Button onPress={() => begin('serial:')}>At another port, or in the network</Button>
          <Button onPress={() => begin('keyboard:')}>A gauge that types like a keyboard</Button>
          <Button onPress={() => begin('')}>Enter a tool that is only read off</Button>
        </div>
      </div>
    </Stage>
    <Words title="Where it is plugged in" next={{ words: 'Look for ports again', run: () => void loadPorts() }}>
      <p>
        A gauge that sends readings hangs on a port. One that is only read off is entered too, so that its resolution
        need not be typed each time.
      </p>
    </Words>
  </>
);

const begin = (link: string): void => go({ at: 'gauges', begin: link });

function Ports() {
  const ports = useGauges((seen) => seen.ports);
  const gauges = useGauges((seen) => seen.gauges) ?? [];
  if (ports?.length === 0)
    return (
      <p>No port is there. Plug the cable in; on Linux the user may need to be in the group that owns serial ports.</p>
    );
  return (
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
              onPress={() => (taken === undefined ? begin(port.link) : go({ at: 'gauges', gauge: taken.id }))}
            >
              {taken === undefined ? 'A gauge hangs here' : 'Show it'}
            </Button>
          </li>
        );
      })}
    </ul>
  );
}
