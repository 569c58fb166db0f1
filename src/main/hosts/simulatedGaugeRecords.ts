import type { BenchService } from '../../shared/contract/contract.ts';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Simulation } from '../bench/parts.ts';

/** The simulated gauges as a shop would enter them; their figures are those hardware-sim gives its ordinary gauges. */
const indicator: Omit<Gauge, 'id' | 'link'> = {
  label: 'Indicator',
  kind: 'indicator',
  serial: 'SIM-1',
  resolution: { value: 0.001, unit: 'mm' },
  statedError: { value: 0.004, unit: 'mm' },
  hysteresis: { value: 0.002, unit: 'mm' },
  calibratedOn: '2026-09-01',
  dueOn: '2027-09-01',
};

const torqueGauge: Omit<Gauge, 'id' | 'link'> = {
  label: 'Torque gauge',
  kind: 'torque',
  serial: 'SIM-2',
  resolution: { value: 0.01, unit: 'N.m' },
  statedError_percent: 2,
  calibratedOn: '2026-09-01',
  dueOn: '2027-09-01',
};

export interface PluggedIn {
  readonly indicator: string;
  readonly torque: string;
}

/**
 * Enters the simulated gauges in the bench and plugs them in; gives their ids. Their lines have new names at every
 * start, so a gauge entered earlier (known by its serial number) gets its new link.
 */
export async function plugInSimulated(service: BenchService, simulation: Simulation): Promise<Result<PluggedIn>> {
  const [indicatorLink = '', torqueLink = ''] = simulation.links;
  const first = await plugIn(service, { ...indicator, link: indicatorLink });
  if (!first.ok) return first;
  const second = await plugIn(service, { ...torqueGauge, link: torqueLink });
  return second.ok ? { ok: true, value: { indicator: first.value, torque: second.value } } : second;
}

async function plugIn(service: BenchService, gauge: Omit<Gauge, 'id'>): Promise<Result<string>> {
  const known = await service.answers['gauges.list']({});
  const id = known.ok ? known.value.find(({ serial }) => serial === gauge.serial)?.id : undefined;
  const saved = await service.answers['gauges.save']({ gauge: { ...gauge, ...(id === undefined ? {} : { id }) } });
  if (!saved.ok) return saved;
  const plugged = await service.answers['gauges.plug-in']({ gauge: saved.value.id });
  return plugged.ok ? { ok: true, value: saved.value.id } : plugged;
}
