import { z } from 'zod';
import { instantSchema, noNumberSchema } from '../basics/recorded.ts';
import { problemSchema, question } from './message.ts';

const folderSchema = z.string().trim().min(1).max(1000);

const backupStateSchema = z.strictObject({
  /** Where backups go by themselves; none until somebody chooses. */
  folder: z.union([z.string(), noNumberSchema]),
  /** The last one that was made there and looked through. */
  last: z.union([
    z.strictObject({ at: instantSchema, file: z.string(), bytes: z.int().min(0), builds: z.int().min(0) }),
    noNumberSchema,
  ]),
  /** Something was recorded that is in none of them. */
  waiting: z.boolean(),
  /** Records and backups lie on one disk, and would go with it together. */
  sameDisk: z.boolean(),
  /** While one is being made: how far it has come, 0 to 1. */
  share: z.number().min(0).max(1).optional(),
  /** Why the last one tried was not made. */
  problem: problemSchema.optional(),
});
export type BackupState = z.infer<typeof backupStateSchema>;

const offeredSchema = z.strictObject({
  file: z.string(),
  at: instantSchema,
  bytes: z.int().min(0),
  builds: z.int().min(0),
  bench: z.string(),
});

export const backupQuestions = {
  'backups.state': question(z.strictObject({}), backupStateSchema),
  /** Where backups go, a folder on this computer or a stick; none ends them. */
  'backups.choose': question(z.strictObject({ folder: z.union([folderSchema, noNumberSchema]) }), backupStateSchema),
  /** Makes one now; answers when it is whole, or why it is not. */
  'backups.make': question(z.strictObject({}), backupStateSchema),
  /** Stops the one that is being made. The earlier ones are as they were. */
  'backups.stop': question(z.strictObject({}), backupStateSchema),
  /** The backups in a folder, of any bench, the newest first. */
  'backups.found': question(
    z.strictObject({ folder: folderSchema }),
    z.strictObject({ backups: z.array(offeredSchema).max(200) }),
  ),
  /** Lays a backup ready for the next start of this bench, at which nobody has worked yet; refused where there are records. */
  'backups.restore': question(
    z.strictObject({ file: folderSchema }),
    z.strictObject({ builds: z.int(), at: instantSchema, bench: z.string(), missing: z.int() }),
  ),
} as const;

export const backupTopics = { backup: backupStateSchema } as const;
