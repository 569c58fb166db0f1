import type { SerialPort } from 'serialport';
import { guardedBinding } from '../../src/main/gauges/links/serialGuard.ts';

/**
 * What a test adds to `new SerialPort({ … })` so that an unplug in mid-flow always gives a `close`: serialport by itself
 * sometimes gives none (see serialGuard.ts), and a test of the simulator must not wait for that fault.
 */
export const guardedOptions = { binding: guardedBinding as unknown as typeof SerialPort.binding };
