import { z } from 'zod';
import { idSchema, nameSchema } from '../basics/recorded.ts';
import { doneSchema, question } from './message.ts';

export const pageSizes = ['a4', 'letter'] as const;

/** Under this name a screen hears how far its paper has come, and can stop it. */
export const jobSchema = z.string().min(1).max(80);

const drawnFor = {
  page: z.enum(pageSizes),
  units: z.enum(['metric', 'inch']),
  /** With every assembly in full behind the usual pages. */
  everything: z.boolean().optional(),
  job: jobSchema.optional(),
};

export const certificateQuestions = {
  /** The pages of the certificate as it would be issued now, as pictures: to be looked at, and to be printed. */
  'certificate.pictures': question(
    z.strictObject({
      build: idSchema,
      ...drawnFor,
      /** 1,654 is a page of A4 at 200 to the inch. */
      pixelsWide: z.int().min(200).max(1700),
      first: z.boolean().optional(),
      /** A small paper in place of the certificate: the axle's tag, or a swap card by the entry it stands in. */
      slip: z
        .discriminatedUnion('kind', [
          z.strictObject({ kind: z.literal('tag') }),
          z.strictObject({ kind: z.literal('swap-card'), swap: idSchema }),
        ])
        .optional(),
    }),
    z.strictObject({ pages: z.array(z.string()), count: z.int() }),
  ),
  /** Stops what is being drawn under this name; nothing is changed by it. */
  'papers.stop': question(z.strictObject({ job: jobSchema }), doneSchema),
  /** Issues the certificate, writes it into the build's notebook and into the certificates' folder. */
  'certificate.issue': question(
    z.strictObject({
      build: idSchema,
      by: nameSchema,
      ...drawnFor,
    }),
    z.strictObject({
      sha256: z.string(),
      complete: z.boolean(),
      missing: z.array(z.string()),
      pdf_base64: z.string(),
      fileName: z.string(),
      folder: z.string(),
    }),
  ),
} as const;

/** How far a paper has come that a screen asked for under a name, 0 to 1. */
export const paperTopics = { paper: z.strictObject({ job: jobSchema, share: z.number().min(0).max(1) }) } as const;
