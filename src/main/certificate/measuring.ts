import { probed } from '../../shared/job/captures/probes.ts';
import { contentHash } from './hash.ts';

let known: string | undefined;

/** By this two programs that measure alike know each other: what the measuring here makes of its probes, as a hash. */
export function measuringHash(): string {
  // Nine digits: sines and roots differ in their last ones between machines.
  known ??= contentHash(JSON.parse(JSON.stringify(probed(), (_, value: unknown) => rounded(value))));
  return known;
}

const rounded = (value: unknown): unknown => (typeof value === 'number' ? Number(value.toPrecision(9)) : value);
