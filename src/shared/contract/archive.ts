import { z } from 'zod';
import { idSchema, instantSchema, noNumberSchema, textSchema } from '../basics/recorded.ts';
import { buildSummarySchema } from '../job/shop/summary.ts';
import { mostListed } from './builds.ts';
import { problemSchema, question } from './message.ts';

const addressSchema = textSchema(400).trim().min(1);
const count = z.int().min(0);

/** How this bench stands with the archive of the shop. */
const archiveStateSchema = z.strictObject({
  /** Where it is; none where this bench sends to none. */
  address: z.union([z.string(), noNumberSchema]),
  /** The file of the authority that signed the server's certificate; none where it is one that everybody knows. */
  authority: z.union([z.string(), noNumberSchema]),
  /** Where the password lies that was typed: sealed by the keychain of the system, in a file for its owner alone, or there is none. */
  password: z.enum(['in-keychain', 'in-file', 'nowhere']),
  /** Things are on their way just now. */
  sending: z.boolean(),
  /** When the archive gave its word for the last time. */
  lastSent: z.union([instantSchema, noNumberSchema]),
  /** What is here and not there; none until it was counted. */
  waiting: z.union([z.strictObject({ entries: count, readings: count, photos: count }), noNumberSchema]),
  /** What keeps it from being sent. */
  problem: problemSchema.optional(),
  /** What the archive has otherwise under the same name. */
  refused: z.array(z.strictObject({ id: z.string(), build: z.string(), problem: problemSchema })).max(100),
  /** Other benches that wrote in builds that are here what is not here yet: who, and when the archive had the last of it. */
  beside: z.array(z.strictObject({ build: z.string(), bench: z.string(), at: instantSchema })).max(100),
});
export type ArchiveState = z.infer<typeof archiveStateSchema>;

const reachSchema = z.strictObject({
  address: addressSchema,
  /** Left out, the one that was kept before is used. */
  password: textSchema(400).optional(),
  authority: z.union([textSchema(1000).trim().min(1), noNumberSchema]),
});
export type ArchiveReach = z.infer<typeof reachSchema>;

const foundSchema = z.strictObject({
  summary: buildSummarySchema,
  /** The bench that wrote in it last. */
  bench: z.strictObject({ id: z.string(), name: z.string() }),
  /** It is in the records of this bench too. */
  here: z.boolean(),
});
export type ArchiveFound = z.infer<typeof foundSchema>;

const foundBuildsSchema = z.strictObject({
  /** The archive itself, or the records of this bench alone where it is out of reach. */
  from: z.enum(['archive', 'here']),
  /** Why it is out of reach. */
  why: problemSchema.optional(),
  /** Nothing has these words; what was found comes near. */
  near: z.boolean(),
  builds: z.array(foundSchema).max(mostListed),
});
export type ArchiveFoundBuilds = z.infer<typeof foundBuildsSchema>;

export const archiveQuestions = {
  'archive.state': question(z.strictObject({}), archiveStateSchema),
  /** Asks the archive whether it would take what this bench sends; nothing is kept. */
  'archive.test': question(reachSchema, z.strictObject({ archive: z.string() })),
  /** Sends there from now on; refused where a test would fail. None ends it, and forgets the password. */
  'archive.choose': question(z.union([reachSchema, noNumberSchema]), archiveStateSchema),
  /** Builds of all benches in which every word was typed, the one written in last first. */
  'archive.find': question(z.strictObject({ words: textSchema(400) }), foundBuildsSchema),
  /** Brings a build of another bench into the records of this one. */
  'archive.fetch': question(
    z.strictObject({ build: idSchema }),
    z.strictObject({ build: idSchema, entries: count, readings: count, already: count }),
  ),
} as const;

export const archiveTopics = {
  archive: archiveStateSchema,
  /** Builds have gone on in the archive since somebody looked; none named where something may have been missed. */
  'archive-news': z.strictObject({ builds: z.array(z.string()).max(100) }),
} as const;
