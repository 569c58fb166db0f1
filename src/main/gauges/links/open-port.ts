import { fail } from '../../../shared/result.ts';
import type { OpenPort } from './port.ts';
import { notYet } from './port-problem.ts';
import { openSerial } from './serial.ts';
import { openTcp } from './tcp.ts';

/** Opens whatever the link names. */
export const openPort: OpenPort = async (link, listener) => {
  if (link.kind === 'serial') return openSerial(link, listener);
  return link.kind === 'tcp' ? openTcp(link, listener) : fail(notYet);
};
