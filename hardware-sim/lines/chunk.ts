/** Bytes that a gauge sends together, and when: seconds from the beginning of the sending. */
export interface Chunk {
  readonly t_s: number;
  readonly bytes: Uint8Array;
}
