import { z } from 'zod';
import { problemSchema } from '../../../shared/contract/message.ts';

/**
 * What the window's host and the bench's process say to each other beside the texts they carry: objects, so that neither can
 * be taken for a message of a page, which is always a text.
 */
export const wordToBenchSchema = z.union([
  /** Write what is held, close the records and end. */
  z.strictObject({ end: z.literal(true) }),
  /** A fault the host has met, for the bench's log. */
  z.strictObject({ fault: z.string() }),
  /** What the keychain of the system made of something; nothing where it keeps none, or gives it back no more. */
  z.strictObject({ keychain: z.int(), text: z.string().optional() }),
]);
export type WordToBench = z.infer<typeof wordToBenchSchema>;

export const wordFromBenchSchema = z.union([
  /** Why the bench has not begun, or what it could not write before it ended: the window says so. */
  z.strictObject({ problem: problemSchema }),
  /** To be sealed by the keychain of the system, or opened again. */
  z.strictObject({ keychain: z.int(), seal: z.string() }),
  z.strictObject({ keychain: z.int(), open: z.string() }),
]);
export type WordFromBench = z.infer<typeof wordFromBenchSchema>;
