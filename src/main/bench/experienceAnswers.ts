import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { ok } from '../../shared/basics/result.ts';
import { earlierBuilds, mostEarlier } from '../../shared/job/experience/earlier.ts';
import { handOf, teethOf } from '../../shared/job/experience/likeness.ts';
import { type Build, readNotebook } from '../../shared/job/records/build.ts';
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
      return ok(related(desk, readNotebook(now.value.id, now.value.entries)));
    },
  };
}

/**
 * Certified builds, the one certified last first, until enough have something in common: others are not even read (their
 * summaries tell by teeth and hand which can have). One that
 * cannot be read teaches nothing and stands in nobody's way.
 */
function related(desk: Desk, now: Build): Notebook[] {
  const found: Notebook[] = [];
  for (const id of desk.buildList.certifiedLike({ teeth: teethOf(now.makeUp), hand: handOf(now) })) {
    if (found.length === mostEarlier) break;
    const notebook = desk.notebooks.read(id);
    if (notebook?.ok === true && earlierBuilds(now, [notebook.value]).length > 0) found.push(notebook.value);
  }
  return found;
}
