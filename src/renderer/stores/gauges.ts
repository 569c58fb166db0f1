import { useMemo } from 'react';
import { create } from 'zustand';
import type { BenchClient } from '../../shared/contract/contract.ts';
import type { GaugeState, Port } from '../../shared/contract/gauges.ts';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import { ask } from './ask.ts';

interface GaugesSeen {
  /** Undefined until the bench has answered. */
  readonly gauges: readonly Gauge[] | undefined;
  readonly states: Readonly<Record<string, GaugeState>>;
  readonly ports: readonly Port[] | undefined;
}

export const useGauges = create<GaugesSeen>()(() => ({ gauges: undefined, states: {}, ports: undefined }));

const byGauge = (states: readonly GaugeState[]): Readonly<Record<string, GaugeState>> =>
  Object.fromEntries(states.map((state) => [state.gauge, state]));

export async function loadGauges(): Promise<void> {
  const [gauges, states] = await Promise.all([ask('gauges.list', {}), ask('gauges.states', {})]);
  if (gauges !== undefined) useGauges.setState({ gauges });
  if (states !== undefined) useGauges.setState({ states: byGauge(states) });
}

/** A record that is new stands last, as the bench lists it; a changed one stays where it was. */
const lay = (saved: Gauge): void =>
  useGauges.setState(({ gauges = [] }) => {
    const at = gauges.findIndex(({ id }) => id === saved.id);
    return { gauges: at < 0 ? [...gauges, saved] : gauges.with(at, saved) };
  });

/** Enters a tool that is read off into the shop's list; undefined after the problem has been told. */
export async function saveTool(label: string, resolution: Gauge['resolution']): Promise<Gauge | undefined> {
  const tool = await ask('gauges.save', { gauge: { label, kind: 'typed', resolution } });
  if (tool !== undefined) lay(tool);
  return tool;
}

export async function loadPorts(): Promise<void> {
  const ports = await ask('gauges.ports', {});
  if (ports !== undefined) useGauges.setState({ ports });
}

export function followGauges(client: BenchClient): () => void {
  const stops = [
    client.hear('gauge-saved', lay),
    client.hear('gauge-states', (states) => {
      useGauges.setState({ states: byGauge(states) });
      // A gauge nobody told us of was added in another window.
      const known = new Set(useGauges.getState().gauges?.map((gauge) => gauge.id));
      if (states.some((state) => !known.has(state.gauge))) void loadGauges();
    }),
  ];
  return () => {
    for (const stop of stops) stop();
  };
}

/** Whether its link is open; nothing need have come over it. */
export const isOpen = (state: GaugeState | undefined): boolean => state?.state === 'live' || state?.state === 'silent';

/** Whether a gauge can be measured with right now: it is there, and has been heard. */
export const isLive = (state: GaugeState | undefined): boolean => isOpen(state) && state?.heard === true;

export type StreamKind = 'indicator' | 'torque';

/** The gauges there are and which of them are live; drawn anew only when that changes, not with every count of readings. */
export interface LiveGauges {
  readonly gauges: readonly Gauge[];
  readonly live: ReadonlySet<string>;
}

const noGauges: readonly Gauge[] = [];

export function useLiveGauges(): LiveGauges {
  const gauges = useGauges((seen) => seen.gauges) ?? noGauges;
  const ids = useGauges(({ states }) =>
    Object.values(states)
      .filter(isLive)
      .map(({ gauge }) => gauge)
      .toSorted()
      .join(' '),
  );
  return useMemo(() => ({ gauges, live: new Set(ids.split(' ')) }), [gauges, ids]);
}

/** The gauges of a kind that send readings, those that are live first. */
export const gaugesFor = ({ gauges, live }: LiveGauges, kind: StreamKind): readonly Gauge[] =>
  gauges.filter((gauge) => gauge.kind === kind).toSorted((a, b) => Number(live.has(b.id)) - Number(live.has(a.id)));
