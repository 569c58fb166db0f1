import { serveLine } from '../../hardware-sim/lines/line.ts';
import type { GaugesOptions } from '../../src/main/gauges/gauges.ts';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { valueOf } from './bench/open.ts';

const usb = { vendor: '1209', product: '0001' };
const alike = ['/dev/ttyUSB0', '/dev/ttyUSB1'];

/**
 * Two adapters that cannot be told apart: the list is made here, at the seam, for no pseudo-terminal has a USB identity.
 * Nothing is ever opened at them, because the bench asks first.
 */
export const portsAlike: Pick<GaugesOptions, 'listPorts'> = {
  listPorts: async () =>
    alike.map((path) => ({
      link: `serial:${path}?baud=9600`,
      name: `Serial adapter – ${path}`,
      simulated: false,
      usb,
    })),
};

/** A gauge on one of them; its page asks which. */
export async function plugInUnclear(service: BenchService): Promise<string> {
  const gauge = { label: 'Depth indicator', kind: 'indicator', resolution: { value: 0.01, unit: 'mm' } } as const;
  const link = `serial:${alike[0] ?? ''}?baud=9600`;
  const { id } = valueOf(await service.answers['gauges.save']({ gauge: { ...gauge, link } }));
  // Refused, and that is the point.
  await service.answers['gauges.plug-in']({ gauge: id });
  return id;
}

export interface PullScale {
  readonly id: string;
  readonly end: () => Promise<void>;
}

/** A pull scale at an arm, held at a steady pull. */
export async function plugInPullScale(service: BenchService): Promise<PullScale> {
  const line = await serveLine();
  const sending = setInterval(() => void line.write(Buffer.from('+0012.4 N\r\n')), 40);
  const gauge = {
    label: 'Pull scale',
    kind: 'torque',
    resolution: { value: 0.1, unit: 'N' },
    arm: { length: { value: 150, unit: 'mm' }, within: { value: 1, unit: 'mm' } },
    link: line.link,
  } as const;
  const { id } = valueOf(await service.answers['gauges.save']({ gauge }));
  valueOf(await service.answers['gauges.plug-in']({ gauge: id }));
  return {
    id,
    end: async () => {
      clearInterval(sending);
      await line.end();
    },
  };
}
