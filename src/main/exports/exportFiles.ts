import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import { readNotebook } from '../../shared/job/records/build.ts';
import type { exportForms } from '../../shared/contract/exports.ts';
import { noCase } from '../../shared/basics/noCase.ts';
import { contentHash } from '../certificate/hash.ts';
import { issueOf, jsonOf } from '../certificate/issue.ts';
import { bundleFile } from './bundle.ts';
import { csvFiles } from './csv.ts';
import { fileNameOf } from './fileName.ts';
import { journalFiles } from './journalFiles.ts';
import { qifFile } from './qif.ts';
import type { ExportedFile, Source } from './source.ts';

export type ExportForm = (typeof exportForms)[number];

/** A certificate's file bears its build's title and the first signs of its hash. */
export const certificateName = (title: string, sha256: string, form: 'pdf' | 'json'): string =>
  `${fileNameOf(title)}-${sha256.slice(0, 8)}.${form}`;

/** A build in one form. Empty where it has nothing of that kind: no measurement with readings. */
export async function exportFiles(
  source: Source,
  form: ExportForm,
  look: CertificateLook,
  onShare?: (share: number) => void,
): Promise<readonly ExportedFile[]> {
  const title = fileNameOf(readNotebook(source.notebook.id, source.notebook.entries).title);
  switch (form) {
    case 'pdf':
    case 'json':
      return [await certificateFile(source, form, look, onShare)];
    case 'csv':
      return csvFiles(source, title);
    case 'qif':
      return [qifFile(source, title)];
    case 'journal':
      return journalFiles(source, title);
    case 'bundle':
      return [bundleFile(source, title)];
    default:
      throw noCase(form);
  }
}

async function certificateFile(
  { database, notebook, identity }: Source,
  form: 'pdf' | 'json',
  look: CertificateLook,
  onShare?: (share: number) => void,
): Promise<ExportedFile> {
  const issue = issueOf(database, notebook, identity);
  const { title } = readNotebook(notebook.id, notebook.entries);
  const name = certificateName(title, contentHash(issue.data), form);
  if (form === 'json') return { name, bytes: jsonOf(issue, identity) };
  // The PDF library and its fonts take a while to load and are not needed before this.
  const { certificatePdf } = await import('../certificate/pdf.ts');
  return { name, bytes: await certificatePdf(issue, look, identity, onShare) };
}
