import { z } from 'zod';
import type { Problem, Result } from '../../shared/basics/result.ts';
import type { ArchiveState } from '../../shared/contract/archive.ts';
import type { TakenIn } from '../exports/takeIn.ts';
import type { FoundBuilds } from './find.ts';

/** What the archive's thread is told at its beginning. */
export const askedSchema = z.strictObject({
  /** The data folder. */
  folder: z.string(),
  address: z.string(),
  authority: z.string().optional(),
  /** Only where it is not kept yet. */
  password: z.string().optional(),
  /** What the keychain gave back of the one that is kept. */
  opened: z.string().optional(),
  /** Greets the archive once, says what came of it, and ends. */
  onlyTest: z.boolean(),
});
export type ThreadAsked = z.infer<typeof askedSchema>;

/** What it is told later. */
export const wordToThreadSchema = z.union([
  z.strictObject({ poke: z.literal(true) }),
  z.strictObject({ end: z.literal(true) }),
  z.strictObject({ ask: z.int(), find: z.string(), limit: z.int() }),
  z.strictObject({ ask: z.int(), fetch: z.string() }),
]);
export type WordToThread = z.infer<typeof wordToThreadSchema>;

/** How sending stands, as far as the thread knows it. */
export type Standing = Pick<ArchiveState, 'sending' | 'lastSent' | 'waiting' | 'refused' | 'beside'> & {
  readonly problem: Problem | undefined;
};

/** What it says. */
export type WordFromThread =
  | { readonly standing: Standing }
  /** Builds that have gone on; none named where something may have been missed. */
  | { readonly news: readonly string[] }
  | { readonly tested: Result<string> }
  | { readonly ask: number; readonly found: Result<FoundBuilds> }
  | { readonly ask: number; readonly fetched: Result<TakenIn> };
