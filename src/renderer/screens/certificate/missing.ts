import { certificateContent } from '../../../shared/presentation/certificate/content.ts';
import type { Notebook } from '../../../shared/job/records/notebook.ts';

/** What a certificate issued now would say is missing, and how much was let through with a reason: by its own words. */
export function missingFor(notebook: Notebook): { readonly missing: readonly string[]; readonly overridden: number } {
  const { missing, assemblies } = certificateContent(notebook);
  const overridden = assemblies.flatMap(({ checks }) => checks).filter(({ override }) => override !== undefined).length;
  return { missing, overridden };
}
