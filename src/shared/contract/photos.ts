import { z } from 'zod';
import { idSchema, nameSchema, noNumberSchema } from '../basics/recorded.ts';
import { largestPhoto_bytes } from '../axle/mark/photo.ts';
import { photoSchema, photoWays, sha256Schema } from '../job/records/photo.ts';
import { notebookSchema } from '../job/records/notebook.ts';
import { problemSchema, question } from './message.ts';

/** Four letters of base64 carry three bytes. */
const jpegSchema = z.base64().max(Math.ceil(largestPhoto_bytes / 3) * 4);

/** A photo that lies in the watched folder and has not been kept or put aside. */
const arrivalSchema = z.strictObject({
  file: z.string().min(1).max(300),
  modified_ms: z.number(),
  bytes: z.int().min(0),
});
export type Arrival = z.infer<typeof arrivalSchema>;

const photoFolderSchema = z.strictObject({
  /** None until somebody chooses one. */
  folder: z.union([z.string(), noNumberSchema]),
  /** Newest first. */
  waiting: z.array(arrivalSchema),
  /** Why the folder cannot be watched at the moment. */
  problem: problemSchema.optional(),
});
export type PhotoFolder = z.infer<typeof photoFolderSchema>;

const arrivalNamed = { file: z.string().min(1).max(300), modified_ms: z.number() };

export const photoQuestions = {
  /** Stores a photo that a screen has shrunk, and writes into the notebook that it belongs to this assembly. */
  'photos.keep': question(
    z.strictObject({
      build: idSchema,
      by: nameSchema,
      assembly: idSchema,
      from: z.enum(photoWays),
      jpeg_base64: jpegSchema,
    }),
    z.strictObject({ photo: photoSchema, notebook: notebookSchema }),
  ),
  'photos.read': question(z.strictObject({ sha256: sha256Schema }), z.strictObject({ jpeg_base64: z.string() })),
  'photos.folder': question(z.strictObject({}), photoFolderSchema),
  /** Watches a folder on this computer for photos that come from now on; none stops it. Files in it are only read. */
  'photos.choose-folder': question(
    z.strictObject({ folder: z.union([z.string().trim().min(1).max(1000), noNumberSchema]) }),
    photoFolderSchema,
  ),
  'photos.fetch': question(z.strictObject(arrivalNamed), z.strictObject({ base64: z.string() })),
  /** The file stays where it is; it is no longer offered. */
  'photos.settle': question(
    z.strictObject({ ...arrivalNamed, became: z.enum(['kept', 'put-aside']) }),
    photoFolderSchema,
  ),
} as const;

export const photoTopics = { 'photo-folder': photoFolderSchema } as const;
