import { z } from 'zod';
import { idSchema, nameSchema } from '../basics/recorded.ts';
import { question } from './message.ts';

export const pageSizes = ['a4', 'letter'] as const;

const lookOnPaper = {
  page: z.enum(pageSizes),
  units: z.enum(['metric', 'inch']),
  /** With every assembly in full behind the usual pages. */
  everything: z.boolean().optional(),
};

export const certificateQuestions = {
  /** How its first page would look if it were issued now; nothing is written. */
  'certificate.preview': question(
    z.strictObject({ build: idSchema, ...lookOnPaper }),
    z.strictObject({ png_base64: z.string() }),
  ),
  /** Issues the certificate, writes it into the build's notebook and into the certificates' folder. */
  'certificate.issue': question(
    z.strictObject({
      build: idSchema,
      by: nameSchema,
      ...lookOnPaper,
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
