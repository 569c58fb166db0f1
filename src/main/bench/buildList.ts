import { type BuildSummary, mostListed } from '../../shared/contract/builds.ts';
import type { Problem } from '../../shared/basics/result.ts';
import type { Notebooks } from '../store/notebooks.ts';
import { summaryOf } from './writing.ts';

/** One build in the list: its line, or why it cannot be read. */
type Listed = { readonly summary: BuildSummary } | { readonly problem: Problem };

/** The builds of the shop in one line each, without reading every notebook every time. */
export interface BuildList {
  /** A page of those that can be read, the one written in last first: those behind `before`, or from the first. */
  page(before?: string): BuildSummary[];
  unreadable(): { readonly id: string; readonly problem: Problem }[];
}

/**
 * A list of a thousand builds read each of its notebooks anew, and a page that asked for it again and again kept the bench from
 * everything else for minutes. Notebooks are only added to, so a line of the list holds until its build has another last line.
 */
export function buildList(notebooks: Pick<Notebooks, 'lastLines' | 'read'>): BuildList {
  const known = new Map<string, { readonly last: number; readonly listed: Listed }>();
  const listed = (build: string, last: number): Listed | undefined => {
    const before = known.get(build);
    if (before?.last === last) return before.listed;
    const notebook = notebooks.read(build);
    if (notebook === undefined) return undefined;
    const now = notebook.ok ? { summary: summaryOf(notebook.value) } : { problem: notebook.problem };
    known.set(build, { last, listed: now });
    return now;
  };
  return {
    page(before) {
      const rows = notebooks.lastLines();
      const page: BuildSummary[] = [];
      const from = before === undefined ? 0 : rows.findIndex(({ build }) => build === before) + 1;
      if (before !== undefined && from === 0) return page;
      for (const { build, last } of rows.slice(from)) {
        if (page.length === mostListed) break;
        const one = listed(build, last);
        if (one !== undefined && 'summary' in one) page.push(one.summary);
      }
      return page;
    },
    unreadable: () =>
      notebooks
        .lastLines()
        .flatMap(({ build, last }) => {
          const one = listed(build, last);
          return one !== undefined && 'problem' in one ? [{ id: build, problem: one.problem }] : [];
        })
        .slice(0, mostListed),
  };
}
