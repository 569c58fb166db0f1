import { join } from 'node:path';
import { certificateContent } from '../../shared/presentation/certificate/content.ts';
import { entriesCertified } from '../../shared/job/certifying/certificateData.ts';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { issueOf } from '../certificate/issue.ts';
import type { CertificateLook } from '../certificate/pdf.ts';
import type { Database } from '../store/database.ts';
import type { Identity } from '../store/identity.ts';
import { contentHash } from '../certificate/hash.ts';
import { fileNameOf } from '../exports/fileName.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { folderInside, writeWhole } from '../writeWhole.ts';
import { type Desk, readBuild, writeEntry } from './writing.ts';

export interface CertifyingDesk extends Desk {
  readonly database: Database;
  readonly identity: Identity;
}

/** As wide as a screen shows it, twice over for fine panels. */
const previewWide_px = 800;

/** Issues certificates: worked out from the notebook, signed, written into the data folder, and noted in the notebook. */
export function certificateAnswers(
  desk: CertifyingDesk,
): Pick<BenchAnswers, 'certificate.issue' | 'certificate.preview'> {
  return {
    'certificate.preview': async ({ build, page, units, everything = false }) => {
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const issue = issueOf(desk.database, notebook.value, desk.identity);
      const { certificatePdf } = await import('../certificate/pdf.ts');
      const { firstPagePicture } = await import('../certificate/picture.ts');
      const pdf = await certificatePdf(issue, { page, units, everything }, desk.identity);
      return ok({ png_base64: (await firstPagePicture(pdf, previewWide_px)).toString('base64') });
    },
    'certificate.issue': async ({ build, by, page, units, everything = false }) => {
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const issue = issueOf(desk.database, notebook.value, desk.identity);
      const look: CertificateLook = { page, units, everything };
      // The PDF library and its fonts take a while to load and are not needed before this.
      const { certificatePdf } = await import('../certificate/pdf.ts');
      const pdf = await certificatePdf(issue, look, desk.identity);
      const sha256 = contentHash(issue.data);
      const { complete } = issue.data.judged;
      const told = certificateContent({ id: build, entries: [...entriesCertified(notebook.value)] });
      const fileName = `${fileNameOf(told.build.title)}-${sha256.slice(0, 8)}.pdf`;
      const written = writeFile(desk.database.folder, fileName, pdf);
      if (!written.ok) return written;
      const noted = writeEntry(desk, build, by, { kind: 'certified', sha256, complete });
      if (!noted.ok) return noted;
      return ok({
        sha256,
        complete,
        missing: [...told.missing],
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
