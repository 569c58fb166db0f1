import { fail } from '../../../shared/basics/result.ts';
import { openModbus } from './modbus.ts';
import type { OpenPort } from './port.ts';
import { openSerial } from './serial.ts';
import { openTcp } from './tcp.ts';
import { noCase } from '../../../shared/basics/noCase.ts';

/** Opens whatever the link names. */
export const openPort: OpenPort = async (link, listener) => {
  switch (link.kind) {
    case 'serial':
      return openSerial(link, listener);
    case 'tcp':
      return openTcp(link, listener);
    case 'modbus':
      return openModbus(link, listener);
    case 'keyboard':
      // Only a bench has a window to type into; it lets such a gauge in by a door of its own.
      return fail(noKeyboardHere);
    default:
      throw noCase(link);
  }
};

const noKeyboardHere = {
  kind: 'port-missing',
  sentence: 'What a gauge types is heard in the window of the bench only.',
  remedy: 'Open the bench and plug the gauge in there.',
} as const;
