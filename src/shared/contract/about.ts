import { z } from 'zod';
import { textSchema } from '../basics/recorded.ts';
import { question } from './message.ts';

/** One version of the program, and what is new in it, in a few lines for the person at the stand. */
export const versionSchema = z.strictObject({
  version: z.string().regex(/^\d{1,4}\.\d{1,4}\.\d{1,4}$/u),
  date: z.iso.date(),
  news: z.array(textSchema(300).min(1)).max(20),
});
export type Version = z.infer<typeof versionSchema>;

/**
 * A list of versions as a file: `docs/versions.json` of any version, laid where a shop's benches can read it. The hash is that
 * of `versions` as RFC 8785 writes it: it shows a file that was cut or changed by accident, and says nothing of who wrote it.
 */
export const versionListSchema = z.strictObject({
  kind: z.literal('axlewright-versions'),
  versions: z.array(versionSchema).min(1).max(200),
  sha256: z.string().regex(/^[0-9a-f]{64}$/u),
});

/** A path on this computer, or an address in the shop's own network. */
export const placeSchema = textSchema(1000).trim();

export const aboutQuestions = {
  /** What is new in this version and those before it, and the licences of all parts: one line each, none where it runs from its sources. */
  'about.parts': question(
    z.strictObject({}),
    z.strictObject({ versions: z.array(versionSchema), licences: z.array(z.string().max(200)).max(2000) }),
  ),
  /** Reads the list that lies at `at` once, now, and gives the versions in it that are newer than this one, the newest first. */
  'about.newer': question(
    z.strictObject({ at: placeSchema.min(1) }),
    z.strictObject({ newest: versionSchema, newer: z.array(versionSchema) }),
  ),
} as const;
