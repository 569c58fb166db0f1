import { z } from 'zod';
import type { Result } from '../../shared/basics/result.ts';
import type { Made } from './make.ts';

/** What a thread that makes a backup is told at its beginning. */
export const askedSchema = z.strictObject({ from: z.string(), into: z.string(), now_ms: z.number() });

/** What it says: how far it has come, and at the end what became of it. */
export type WordFromThread = { readonly share: number } | { readonly made: Result<Made> };
