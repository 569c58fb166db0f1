import type { Port } from '../../../shared/contract/gauges.ts';
import { parseLink } from '../../../shared/gauges/link.ts';
import { listPorts } from '../../gauges/ports.ts';
import { told } from '../told.ts';
import type { Verb } from '../verb.ts';

/** The serial ports of this computer. */
export const ports: Verb = {
  name: 'ports',
  ...told.ports,
  options: {},
  async run(_given, output) {
    const found = await listPorts();
    output.answer(found.map(portAnswer));
    if (found.length === 0) output.say('This computer lists no serial port; one can still be opened by its path.');
    return 0;
  },
};

/** A port as the command line tells it: by the path that stands in its link. */
export function portAnswer({ link, name, usb }: Port) {
  const parsed = parseLink(link);
  const path = parsed.ok && parsed.value.kind === 'serial' ? parsed.value.path : link;
  return { path, name, ...(usb === undefined ? {} : { usb }) };
}
