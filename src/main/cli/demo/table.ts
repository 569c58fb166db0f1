import type { Notebook } from '../../../shared/job/records/notebook.ts';
import { assemblyName, readNotebook } from '../../../shared/job/records/build.ts';
import { isDescribed, readinessOf } from '../../../shared/job/checks/readiness.ts';
import { checkBrief } from '../../../shared/presentation/words/answers.ts';
import { standingWords } from '../../../shared/presentation/words/standing.ts';

/** One line for what was written last, or nothing for entries that are no check: the table grows as the job does. */
export function lastLine(notebook: Notebook): string | undefined {
  const { deed, id } = notebook.entries.at(-1) ?? {};
  const build = readNotebook(notebook.id, notebook.entries);
  if (deed === undefined || !isDescribed(build)) return undefined;
  if (deed.kind === 'assembled') {
    const assembly = build.assemblies.find((one) => one.id === id);
    return assembly === undefined ? undefined : `\n${assemblyName(assembly)}`;
  }
  if (deed.kind !== 'measured' && deed.kind !== 'overridden') return undefined;
  const assembly = build.assemblies.find((one) => one.id === deed.assembly);
  if (assembly === undefined) return undefined;
  const state = readinessOf(build, assembly).states.find((one) => one.check.id === deed.check);
  if (state === undefined) return undefined;
  const what =
    deed.kind === 'overridden' ? `overridden: ${deed.reason}` : checkBrief(deed.check, deed.result, 'metric');
  const typed = deed.kind === 'measured' && deed.how.kind === 'typed' ? 'typed' : '';
  return deed.kind === 'overridden'
    ? `  ${state.check.title.padEnd(26)} ${what}`
    : `  ${state.check.title.padEnd(26)} ${what.padEnd(24)} ${standingWords(state).padEnd(24)} ${typed}`.trimEnd();
}
