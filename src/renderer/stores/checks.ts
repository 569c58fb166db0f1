import { create } from 'zustand';
import type { BenchClient } from '../../shared/contract/contract.ts';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import { type GaugeCheck, judgeGaugeCheck } from '../../shared/job/records/gaugeCheck.ts';
import { ask } from './ask.ts';

/** The last daily check of each gauge, by the gauge's id. */
export const useChecks = create<{ readonly last: Readonly<Record<string, GaugeCheck>> }>()(() => ({ last: {} }));

const lay = (checks: readonly GaugeCheck[]): void =>
  useChecks.setState(({ last }) => ({
    last: { ...last, ...Object.fromEntries(checks.map((one) => [one.gauge, one])) },
  }));

export async function loadChecks(): Promise<void> {
  const checks = await ask('gauge-checks.last', {});
  if (checks !== undefined) lay(checks);
}

/** A gauge was checked, here or at another screen. */
export const followChecks = (client: BenchClient): (() => void) =>
  client.hear('gauge-checked', (check) => lay([check]));

/** What the last check found wrong with a gauge, in a sentence; undefined where it found nothing or there was none. */
export function useWrong(gauge: Gauge): string | undefined {
  const last = useChecks((seen) => seen.last[gauge.id]);
  return last === undefined ? undefined : judgeGaugeCheck(last, gauge).why;
}
