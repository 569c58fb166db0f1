import { openModbus } from './modbus.ts';
import type { OpenPort } from './port.ts';
import { openSerial } from './serial.ts';
import { openTcp } from './tcp.ts';

/** Opens whatever the link names. */
export const openPort: OpenPort = async (link, listener) => {
  switch (link.kind) {
    case 'serial':
      return openSerial(link, listener);
    case 'tcp':
      return openTcp(link, listener);
    case 'modbus':
      return openModbus(link, listener);
  }
};
