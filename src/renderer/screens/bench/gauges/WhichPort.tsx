import { useEffect } from 'react';
import { looksAlike } from '../../../../shared/gauges/usbIdentity.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Button } from '../../../parts/Button.tsx';
import { ask } from '../../../stores/ask.ts';
import { loadGauges, loadPorts, useGauges } from '../../../stores/gauges.ts';

/** Where adapters cannot be told apart a person says which port is this gauge's. */
export function WhichPort({ gauge }: { readonly gauge: Gauge }) {
  const ports = useGauges((seen) => seen.ports);
  useEffect(() => void loadPorts(), []);
  const take = async (at: string): Promise<void> => {
    await ask('gauges.plug-in', { gauge: gauge.id, at });
    await loadGauges();
  };
  const { usb: own } = gauge;
  if (own === undefined) return undefined;
  return (
    <div className="which-port">
      <p>
        Unplug the other one and look for the ports again: the one that is left is its own. Readings of the wrong gauge
        look right.
      </p>
      {(ports ?? [])
        .filter(({ usb }) => usb !== undefined && looksAlike(usb, own))
        .map((port) => (
          <Button key={port.link} more={port.link} onPress={() => void take(port.link)}>
            {`It is at ${port.name}`}
          </Button>
        ))}
    </div>
  );
}
