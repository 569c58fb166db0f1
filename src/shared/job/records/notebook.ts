import { z } from 'zod';
import {
  bearingStates,
  idSchema,
  instantSchema,
  nameSchema,
  torqueTypedSchema,
  wordsSchema,
} from '../../basics/recorded.ts';
import { makeUpSchema } from '../../axle/makeUp.ts';
import { photoSchema, photoWays } from './photo.ts';
import { howSchema, resultSchema, shimPackSchema, torqueResultSchema } from './measurement.ts';
import { limitsChangeSchema, specSheetSchema } from './specSheet.ts';
import { swapSchema } from './swap.ts';
import { checkIds, phases } from './checkIds.ts';

/**
 * A build is kept as its notebook: entries in ink, in order, never rubbed out. What a build *is* follows
 * from reading the notebook from the top (build.ts). Undo strikes an entry through; the struck line stays
 * readable, so nothing recorded is ever lost.
 */
export const noteTopics = ['complaint', 'noise', 'road-test', 'oil', 'odometer', 'customer', 'plate', 'note'] as const;

/** What was heard on the road. */
export const heardOptions = ['nothing', 'as-before', 'other'] as const;
export type Heard = (typeof heardOptions)[number];

/** Where a build lies. */
export const layings = ['on-the-bench', 'put-away', 'thrown-away'] as const;
export type Laying = (typeof layings)[number];

const assemblySchema = z.strictObject({
  phase: z.enum(phases),
  bearings: z.enum(bearingStates),
  seal: z.enum(['in', 'out']),
  /** A crush sleeve in place, or the solid spacer at full nut torque. Trials usually run without. */
  sleeve: z.boolean(),
  /** The swap card it was put together by. */
  swap: idSchema.optional(),
  /** Threaded adjusters: notches really turned, away from the pinion positive; a lock that fits only the next hole decides. */
  notchesTurned: z.int().min(-200).max(200).optional(),
});

/** What was done to the nut in a step, as far as it was typed. */
export const nutSaid = {
  nutTurn_deg: z.number().positive().max(720).optional(),
  nutTorque: torqueTypedSchema.optional(),
};

export const deedSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('started'),
    title: nameSchema,
    technician: nameSchema,
    /** The earlier build this one is a comeback of. */
    comebackOf: idSchema.optional(),
  }),
  z.strictObject({ kind: z.literal('described'), makeUp: makeUpSchema }),
  z.strictObject({
    kind: z.literal('limits-set'),
    specSheet: specSheetSchema,
    /** Where a limit changes that something was held against already; notebooks of before that was asked have none. */
    change: limitsChangeSchema.optional(),
  }),
  z.strictObject({
    kind: z.literal('noted'),
    topic: z.enum(noteTopics),
    text: wordsSchema.min(1),
    /** Of a road test: whether anything was heard decides what comes next. */
    heard: z.enum(heardOptions).optional(),
  }),
  z.strictObject({ kind: z.literal('assembled'), assembly: assemblySchema }),
  z.strictObject({
    kind: z.literal('measured'),
    /** Entry that opened the assembly this belongs to. */
    assembly: idSchema,
    check: z.enum(checkIds),
    how: howSchema,
    result: resultSchema,
  }),
  /** One small step of the nut on a crush sleeve, and the torque read after it: on the way to the one that counts. */
  z.strictObject({
    kind: z.literal('sleeve-step'),
    assembly: idSchema,
    how: howSchema,
    result: torqueResultSchema,
    ...nutSaid,
  }),
  /** A sleeve that was crushed too far is out and a new one is in; its steps stay in the record. */
  z.strictObject({ kind: z.literal('sleeve-wasted'), assembly: idSchema }),
  /** The plan asked to look before another shim. It was looked at, and this assembly is as it was told. */
  z.strictObject({ kind: z.literal('looked-at'), assembly: idSchema }),
  z.strictObject({
    kind: z.literal('overridden'),
    assembly: idSchema,
    check: z.enum(checkIds),
    reason: wordsSchema.min(3),
  }),
  /** A photo of painted teeth, stored with its assembly whether or not a mark was read off it. */
  z.strictObject({
    kind: z.literal('photographed'),
    assembly: idSchema,
    photo: photoSchema,
    from: z.enum(photoWays),
  }),
  /** The swap card: what changes before the next trial, starting at `assembly`. */
  z.strictObject({ kind: z.literal('swap-planned'), assembly: idSchema, swap: swapSchema }),
  /** Packs of a swap card, measured before anything is put together, so that a wrong stack costs nothing. */
  z.strictObject({
    kind: z.literal('packs-measured'),
    swap: idSchema,
    how: howSchema,
    packs: z.array(shimPackSchema).min(1).max(4),
  }),
  /** The build is known by another name from here on. */
  z.strictObject({ kind: z.literal('renamed'), title: nameSchema }),
  /**
   * Where the build lies: on the bench, among those put away, or thrown away. Nothing of it is removed by this, and it is
   * brought back the same way.
   */
  z.strictObject({ kind: z.literal('laid'), where: z.enum(layings) }),
  z.strictObject({ kind: z.literal('certified'), sha256: z.string().regex(/^[0-9a-f]{64}$/u), complete: z.boolean() }),
  /** Strikes one entry through. Striking a strike brings the entry back. */
  z.strictObject({ kind: z.literal('struck'), entry: idSchema, reason: wordsSchema.optional() }),
]);
export type Deed = z.infer<typeof deedSchema>;
export type DeedOf<Kind extends Deed['kind']> = Extract<Deed, { kind: Kind }>;

/** Schema version of one notebook entry; old entries are read through migrations, never rewritten. */
export const entryVersion = 1;

export const entrySchema = z.strictObject({
  id: idSchema,
  version: z.literal(entryVersion),
  at: instantSchema,
  by: nameSchema,
  deed: deedSchema,
});
export type Entry = z.infer<typeof entrySchema>;

/** A build as it is kept: its entries in the order in which they were written. */
export const notebookSchema = z.strictObject({ id: idSchema, entries: z.array(entrySchema) });
export type Notebook = z.infer<typeof notebookSchema>;

/** The entries that still stand, in order: struck ones and the strikes themselves left out. */
export function standing(entries: readonly Entry[]): readonly Entry[] {
  const struck = new Set<string>();
  // Read from the end: a later strike decides whether an earlier strike still counts.
  for (const entry of entries.toReversed()) {
    if (entry.deed.kind === 'struck' && !struck.has(entry.id)) struck.add(entry.deed.entry);
  }
  return entries.filter((entry) => entry.deed.kind !== 'struck' && !struck.has(entry.id));
}

/** The entry that undo would strike: the last one still standing, but never the one that started the build. */
export const lastStanding = (entries: readonly Entry[]): Entry | undefined =>
  standing(entries).findLast((entry) => entry.deed.kind !== 'started');

/** The strike that redo would strike: the last one still in force, unless something new was written after it. */
export function lastStrike(entries: readonly Entry[]): Entry | undefined {
  const restored = new Set<string>();
  for (const entry of entries.toReversed()) {
    if (entry.deed.kind !== 'struck') return undefined;
    if (isStrike(entries, entry.deed.entry)) restored.add(entry.deed.entry);
    else if (!restored.has(entry.id)) return entry;
  }
  return undefined;
}

const isStrike = (entries: readonly Entry[], id: string): boolean =>
  entries.some((entry) => entry.id === id && entry.deed.kind === 'struck');
