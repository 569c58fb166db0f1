import { z } from 'zod';
import { idSchema } from '../basics/recorded.ts';
import { jobSchema, pageSizes } from './certificate.ts';
import { question } from './message.ts';

/** The forms a build leaves the bench in, besides its certificate: data, tables, results, readings, and for another bench. */
export const exportForms = ['pdf', 'json', 'csv', 'qif', 'journal', 'bundle'] as const;

/** Of a file taken in by a page: a message takes 4 MB, and base64 makes three bytes four. */
export const largestTakenIn_bytes = 2_900_000;

export const exportQuestions = {
  /** A build in one form, as files to be kept wherever the page likes. */
  'exports.make': question(
    z.strictObject({
      build: idSchema,
      as: z.enum(exportForms),
      /** How the certificate is drawn, where that is what is wanted; otherwise as the bench is set. */
      page: z.enum(pageSizes).optional(),
      units: z.enum(['metric', 'inch']).optional(),
      everything: z.boolean().optional(),
      /** With the photos of the build beside it. */
      photos: z.boolean().optional(),
      job: jobSchema.optional(),
    }),
    z.strictObject({ files: z.array(z.strictObject({ name: z.string(), base64: z.string() })) }),
  ),
  /** Takes in a build of another bench from its bundle; twice is the same as once. */
  'exports.take-in': question(
    z.strictObject({ base64: z.base64().max((largestTakenIn_bytes * 4) / 3 + 4) }),
    z.strictObject({ build: idSchema, entries: z.int(), readings: z.int(), already: z.int() }),
  ),
} as const;
