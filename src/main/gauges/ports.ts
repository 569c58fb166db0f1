import { SerialPort } from 'serialport';
import type { Port } from '../../shared/contract/gauges.ts';
import { linkText, parseLink } from '../../shared/gauges/link.ts';

interface Listed {
  readonly path: string;
  readonly manufacturer?: string | undefined;
  readonly serialNumber?: string | undefined;
  readonly vendorId?: string | undefined;
  readonly productId?: string | undefined;
  readonly friendlyName?: string | undefined;
}

/**
 * The serial ports of this computer, named so that a person recognises them, with the USB identity by which a gauge is
 * known again. Empty where the system has no such list (a Linux without udev): then a port is typed in.
 */
export async function listPorts(list: () => Promise<readonly Listed[]> = () => SerialPort.list()): Promise<Port[]> {
  try {
    return (await list()).filter(isWorthShowing).map(portOf);
  } catch {
    // serialport rejects where udevadm is missing. No list is no failure: every port can still be opened by its path.
    return [];
  }
}

/** Linux lists 32 built-in ports; a computer has at most the first four. */
const isWorthShowing = ({ path, vendorId }: Listed): boolean =>
  vendorId !== undefined || !/^\/dev\/ttyS(?:[4-9]|\d\d)$/u.test(path);

function portOf(listed: Listed): Port {
  const { path, vendorId, productId, serialNumber } = listed;
  const link = parseLink(`serial:${path.replaceAll(/[%?]/gu, encodeURIComponent)}`);
  const words = [listed.friendlyName ?? listed.manufacturer, path].filter((word) => word !== undefined);
  const usb = vendorId !== undefined && productId !== undefined ? { vendor: vendorId, product: productId } : undefined;
  return {
    link: link.ok ? linkText(link.value) : `serial:${path}`,
    name: words.join(' \u2013 '),
    simulated: false,
    ...(usb !== undefined && { usb: { ...usb, ...(serialNumber !== undefined && { serial: serialNumber }) } }),
  };
}
