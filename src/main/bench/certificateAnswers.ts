import { join } from 'node:path';
import { done } from '../../shared/contract/message.ts';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { Database } from '../store/database.ts';
import type { Identity } from '../store/identity.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { folderInside, writeWhole } from '../writeWhole.ts';
import { paperApart } from '../exports/apart/paperApart.ts';
import type { PaperJobs } from './drawing.ts';
import { type Desk, readBuild, writeEntry } from './writing.ts';

export interface CertifyingDesk extends Desk {
  readonly database: Database;
  readonly identity: Identity;
  readonly papers: PaperJobs;
}

type Names = 'certificate.issue' | 'certificate.pictures' | 'papers.stop';

/** Certificates: looked at, printed, and issued: worked out from the notebook, signed, written into the data folder, and noted in it. */
export function certificateAnswers(desk: CertifyingDesk): Pick<BenchAnswers, Names> {
  return {
    'certificate.issue': (asked) => issue(desk, asked),
    'certificate.pictures': async ({
      build,
      pixelsWide,
      first = false,
      slip,
      job,
      page,
      units,
      everything = false,
    }) => {
      const look = { page, units, everything };
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const wanted = { make: 'pictures', pixelsWide, most: first ? 1 : Number.POSITIVE_INFINITY, slip } as const;
      const { folder } = desk.database;
      const asked = { folder, notebook: notebook.value, look, wanted };
      const drawn = await desk.papers.run(job, (watching) => paperApart(asked, watching));
      if (!drawn.ok) return drawn;
      const pages = drawn.value.pictures.map((page) => Buffer.from(page).toString('base64'));
      return ok({ pages, count: drawn.value.pages });
    },
    'papers.stop': async ({ job }) => {
      desk.papers.stop(job);
      return ok(done);
    },
  };
}

type Asked = Parameters<BenchAnswers['certificate.issue']>[0];

async function issue(
  desk: CertifyingDesk,
  { build, by, job, page, units, everything = false }: Asked,
): ReturnType<BenchAnswers['certificate.issue']> {
  const look = { page, units, everything };
  const notebook = readBuild(desk, build);
  if (!notebook.ok) return notebook;
  const { folder } = desk.database;
  const asked = { folder, notebook: notebook.value, look, wanted: { make: 'certificate' } } as const;
  const drawn = await desk.papers.run(job, (watching) => paperApart(asked, watching));
  if (!drawn.ok) return drawn;
  const { sha256, complete, missing } = drawn.value.told;
  const { name: fileName, bytes } = drawn.value.file;
  const pdf = Buffer.from(bytes);
  const written = writeFile(folder, fileName, pdf);
  if (!written.ok) return written;
  const noted = writeEntry(desk, build, by, { kind: 'certified', sha256, complete });
  if (!noted.ok) return noted;
  return ok({
    sha256,
    complete,
    missing: [...missing],
    pdf_base64: pdf.toString('base64'),
    fileName,
    folder: written.value,
  });
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
