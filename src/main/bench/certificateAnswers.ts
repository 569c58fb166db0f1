import { join } from 'node:path';
import { certificateContent } from '../../shared/presentation/certificate/content.ts';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { CertificateLook } from '../certificate/pdf.ts';
import { contentHash } from '../certificate/hash.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { folderInside, writeWhole } from '../writeWhole.ts';
import { type Desk, readBuild, writeEntry } from './writing.ts';

/** Issues certificates: computed from the notebook, written into the data folder, and noted in the notebook. */
export function certificateAnswers(desk: Desk, folder: string): Pick<BenchAnswers, 'certificate.issue'> {
  return {
    'certificate.issue': async ({ build, by, page, units }) => {
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const content = certificateContent(notebook.value);
      const look: CertificateLook = { page, units };
      // The PDF library and its fonts take a while to load and are not needed before this.
      const { certificatePdf } = await import('../certificate/pdf.ts');
      const pdf = await certificatePdf(content, look);
      const sha256 = contentHash(content);
      const fileName = `${fileNameOf(content.build.title)}-${sha256.slice(0, 8)}.pdf`;
      const written = writeFile(folder, fileName, pdf);
      if (!written.ok) return written;
      const noted = writeEntry(desk, build, by, { kind: 'certified', sha256, complete: content.complete });
      if (!noted.ok) return noted;
      return ok({
        sha256,
        complete: content.complete,
        missing: [...content.missing],
        pdf_base64: pdf.toString('base64'),
        fileName,
        folder: written.value,
      });
    },
  };
}

/** Gives the folder it was written into. */
function writeFile(dataFolder: string, name: string, bytes: Buffer): Result<string> {
  try {
    const folder = folderInside(dataFolder, 'certificates');
    writeWhole(join(folder, name), bytes);
    return ok(folder);
  } catch (error) {
    return fail(databaseProblem(error, join(dataFolder, 'certificates', name)));
  }
}

/** A title as a file name on every system: letters and digits, the rest as single dashes. */
export const fileNameOf = (title: string): string =>
  title
    .normalize('NFKD')
    .replaceAll(/[^A-Za-z0-9]+/gu, '-')
    .replaceAll(/^-+|-+$/gu, '')
    .slice(0, 60) || 'certificate';
