import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { ok } from '../../shared/basics/result.ts';
import { earlierBuilds } from '../../shared/job/experience/earlier.ts';
import { readNotebook } from '../../shared/job/records/build.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import { type Desk, readBuild } from './writing.ts';

/**
 * Earlier builds as they stand in their notebooks. What they teach is worked out beside the page: here gauges are read,
 * and nothing may keep them waiting.
 */
export function experienceAnswers(desk: Desk): Pick<BenchAnswers, 'experience.read'> {
  return {
    'experience.read': async ({ build }) => {
      const now = readBuild(desk, build);
      if (!now.ok) return now;
      const all = everyNotebook(desk);
      const related = earlierBuilds(readNotebook(now.value.id, now.value.entries), all);
      const ids = new Set(related.map(({ build: { id } }) => id));
      return ok(all.filter(({ id }) => ids.has(id)));
    },
  };
}

/** Every notebook that can be read: one that cannot teaches nothing and stands in nobody's way. */
const everyNotebook = (desk: Desk): Notebook[] =>
  desk.notebooks.ids().flatMap((id) => {
    const notebook = desk.notebooks.read(id);
    return notebook?.ok === true ? [notebook.value] : [];
  });
