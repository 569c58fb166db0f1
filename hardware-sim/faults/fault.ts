import type { Chunk } from '../lines/chunk.ts';

/**
 * What a bad cable, a wrong setting or a failing gauge makes of one chunk: one or several, not earlier than it.
 * Never none: an empty chunk keeps the time where the bytes are lost, for the sender paces itself by chunks.
 */
export type Fault = (chunk: Chunk) => readonly Chunk[];

export const noFault: Fault = (chunk) => [chunk];

/** Faults one after the other, the first nearest the gauge. */
export function together(faults: readonly Fault[]): Fault {
  return (chunk) => faults.reduce<readonly Chunk[]>((chunks, fault) => chunks.flatMap((each) => fault(each)), [chunk]);
}

/** A fault that is there only from one time to another. */
export function during(from_s: number, until_s: number, fault: Fault): Fault {
  return (chunk) => (chunk.t_s >= from_s && chunk.t_s < until_s ? fault(chunk) : [chunk]);
}

/** A fault that can be exchanged while the gauge runs. */
export function faultSwitch(): { readonly fault: Fault; readonly set: (fault: Fault) => void } {
  let now: Fault = noFault;
  return {
    fault: (chunk) => now(chunk),
    set(fault) {
      now = fault;
    },
  };
}

/** All chunks with the fault on the way; one without bytes has nothing to spoil. */
export function* withFault(chunks: Iterable<Chunk>, fault: Fault): Generator<Chunk> {
  for (const chunk of chunks) yield* chunk.bytes.length === 0 ? [chunk] : fault(chunk);
}
