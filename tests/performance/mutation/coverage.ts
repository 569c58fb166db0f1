import { z } from 'zod';

/** What the sleeping changes keep in the global scope: how often each was come by. */
interface Coverage {
  mutantCoverage?: { readonly static: Readonly<Record<string, number>> };
}

export function coverageOf(scope: object): Coverage {
  const holder: { __stryker__?: Coverage } = scope;
  return (holder.__stryker__ ??= {});
}

/** One test file and how often it came by which change. */
export const metSchema = z.object({ path: z.string(), hits: z.record(z.string(), z.number()) });
export type Met = z.infer<typeof metSchema>;
