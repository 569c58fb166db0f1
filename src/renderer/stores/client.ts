import type { BenchClient } from '../../shared/contract/contract.ts';

let client: BenchClient | undefined;

/** Gives the stores the bench they talk to; called once, where the page is composed. */
export function giveBench(bench: BenchClient): void {
  client = bench;
}

/** The bench. Asking before it was given is a defect of composition, not something a person can cause. */
export function theBench(): BenchClient {
  if (client === undefined) throw new Error('the stores were used before they were given a bench');
  return client;
}
